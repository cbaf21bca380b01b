from tideboard import config
from tideboard.charts import gauge
from tideboard.charts.fakecharts import FakeChart
from tideboard.units import metres
