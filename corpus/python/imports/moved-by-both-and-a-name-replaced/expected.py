from tideboard import fetch
from tideboard.units import Fathoms, Metres

fetch()
