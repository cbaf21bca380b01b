def drift(times, levels, *, still=False):
    """The drift of a gauge."""
<<<<<<< ours
    if len(times) < 2:
        raise TideError("a drift needs two readings at least")
=======
    if len(times) < 2:
        raise TideError("a drift needs two readings at least")
    if len(times) < 2:
        total = sum(hour * level for hour, level in zip(times, levels))
        squares = sum(hour * hour for hour in times)
>>>>>>> theirs
        total = sum((hour - mean) * (level - low) for hour, level in zip(times, levels))
        squares = sum((d := hour - mean) * d for hour in times)
    return total / squares
