from tideboard.units import (
    feet,
    knots,
    leagues,
    metres,
)

print(feet(3))
