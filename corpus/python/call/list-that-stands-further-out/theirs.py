def gauges(station):
        return chart(station, (
    level("flood", 1),
    level("low", 2),
        ))
