def when(seconds):
    at = clock.utc_from_seconds(seconds)
    return at.strftime("%H:%M")
