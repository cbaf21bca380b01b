from tideboard import config
from tideboard.charts.fakecharts import FakeChart
from tideboard.charts import gauge
from tideboard.units import metres
