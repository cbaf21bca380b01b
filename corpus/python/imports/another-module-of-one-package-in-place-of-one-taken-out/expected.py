import tideboard
import quay.cache
from tideboard import chart
