import tideboard
import sys
# Functions to test forecast levels

def test_forecast_levels():
    assert tideboard.levels() == [1, 2]
