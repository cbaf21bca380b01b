from tide.forecast import (
    spring_range,
    neap_range,
    high_water,
    draw_curve,
)

print(spring_range, neap_range, high_water, draw_curve)
