from tideboard import fetch
from tideboard.units import Feet, Metres

fetch()
