from tide.units import metres, feet

show(metres, feet)
