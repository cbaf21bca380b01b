from tideboard.units import (
    feet,
    knots,
    leagues,
    metres,
)
