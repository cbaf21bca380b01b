"""Drawing of tide charts."""
import os
import sys
import tides

CHART = tides.chart(sys.argv)
