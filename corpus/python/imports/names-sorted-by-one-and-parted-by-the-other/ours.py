from tide.units import feet, metres

show(metres, feet)
