from tideboard.units import (
    ells,
    fathoms,
    feet,
    knots,
    metres,
)
