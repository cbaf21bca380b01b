import tideboard
import unittest

from quay import gauge

LEVEL = gauge.read(unit="m")
