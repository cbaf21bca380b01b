from tideboard.units import (
    feet,
    kelvin,
    metres,
    miles,
)
