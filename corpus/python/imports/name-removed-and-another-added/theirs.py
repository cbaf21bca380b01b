from tideboard.units import (
    feet,
    kelvin,
    knots,
    metres,
    miles,
)
