from tide.units import feet
from tide.units import metres

show(metres, feet)
