import units

from units import feet

import tides

print(feet(tides.high()))
print(units.metres(tides.low()))
