import tideboard
import quay.store
from tideboard import chart
