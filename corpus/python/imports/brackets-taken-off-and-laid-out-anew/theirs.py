from tideboard.feeds import (
    Gauge,
    read_all,
    Station,
)

rows = read_all()
