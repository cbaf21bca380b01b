import json
from units import feet
import units

import tides

print(json.dumps(feet(tides.high())))
print(units.metres(tides.low()))
