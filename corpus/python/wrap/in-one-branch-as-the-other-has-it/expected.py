def when(seconds):
    if clock.knows_zones:
        at = clock.from_seconds(seconds, clock.utc)
    else:
        at = clock.utc_from_seconds(seconds)
    return at.strftime("%H:%M")
