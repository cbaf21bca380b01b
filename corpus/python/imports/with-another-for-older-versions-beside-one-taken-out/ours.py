"""Drawing of tide charts."""
import sys
import tides

CHART = tides.chart(sys.argv)
