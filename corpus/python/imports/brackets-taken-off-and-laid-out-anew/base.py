from tideboard.feeds import (Gauge, Station,
    read_all)

rows = read_all()
