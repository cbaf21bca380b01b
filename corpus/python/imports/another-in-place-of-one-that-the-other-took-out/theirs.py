import tideboard
import almanac

from quay import gauge

LEVEL = gauge.read(unit="m", moon=almanac.phase())
