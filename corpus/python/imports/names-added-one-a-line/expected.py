from tideboard.units import (
    feet,
    knots,
    leagues,
    litres,
    metres,
)
