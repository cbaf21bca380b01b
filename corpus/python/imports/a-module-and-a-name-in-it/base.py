import json

import tides

print(json.dumps(tides.high()))
