from tide.forecast import (
    draw_curve,
    high_water,
    low_water,
    neap_range,
    spring_range,
)

print(spring_range, neap_range, high_water, draw_curve, low_water)
