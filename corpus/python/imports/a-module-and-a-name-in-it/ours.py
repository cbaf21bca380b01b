import json
from units import feet

import tides

print(json.dumps(feet(tides.high())))
