from tideboard.units import Feet, Metres
from tideboard import fetch

fetch()
