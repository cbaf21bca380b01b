from tideboard.units import (
    feet,
    knots,
    metres,
)
