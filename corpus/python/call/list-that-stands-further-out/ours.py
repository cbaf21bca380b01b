def gauges(station):
        return chart(station, (
    level("high", 10),
    level("low", 2),
        ))
