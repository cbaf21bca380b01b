"""Drawing of tide charts."""
try:
    from cStringIO import StringIO
except ImportError:
    from io import StringIO
import sys
import tides

CHART = tides.chart(sys.argv, StringIO())
