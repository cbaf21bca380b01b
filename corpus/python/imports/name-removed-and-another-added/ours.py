from tideboard.units import (
    feet,
    metres,
)
