def gauges(station):
        return chart(station, (
    level("flood", 10),
    level("low", 2),
        ))
