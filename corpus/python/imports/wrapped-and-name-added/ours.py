from tideboard.units import (
    feet,
    knots,
    metres,
)

print(feet(3))
