from units import feet

import tides

print(feet(tides.high()))
