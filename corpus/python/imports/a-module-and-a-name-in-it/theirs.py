import json
import units

import tides

print(json.dumps(tides.high()))
print(units.metres(tides.low()))
