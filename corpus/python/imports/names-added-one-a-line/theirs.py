from tideboard.units import (
    feet,
    knots,
    litres,
    metres,
)
