def when(seconds):
    at = clock.from_seconds(seconds)
    return at.strftime("%H:%M")
