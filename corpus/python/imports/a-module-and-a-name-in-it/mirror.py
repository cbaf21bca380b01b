import json
import units
from units import feet

import tides

print(json.dumps(feet(tides.high())))
print(units.metres(tides.low()))
