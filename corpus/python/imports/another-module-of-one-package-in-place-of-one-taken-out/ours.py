import tideboard
from tideboard import chart
