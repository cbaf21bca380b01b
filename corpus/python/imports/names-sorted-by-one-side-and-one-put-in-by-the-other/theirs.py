from tide.forecast import (
    low_water,
    spring_range,
    neap_range,
    high_water,
    draw_curve,
)

print(spring_range, neap_range, high_water, draw_curve, low_water)
