from tideboard.units import (
    fathoms,
    feet,
    knots,
    metres,
)
