import units

import tides

print(tides.high())
print(units.metres(tides.low()))
