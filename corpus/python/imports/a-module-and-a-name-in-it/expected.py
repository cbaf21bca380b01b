from units import feet

import units

import tides

print(feet(tides.high()))
print(units.metres(tides.low()))
