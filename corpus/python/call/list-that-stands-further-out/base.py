def gauges(station):
        return chart(station, (
    level("high", 1),
    level("low", 2),
        ))
