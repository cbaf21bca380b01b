def drift(times, levels, *, still=False):
    """The drift of a gauge."""
    if len(times) < 2:
        raise TideError("a drift needs two readings at least")
<<<<<<< ours
    if still:
        total = sum(hour * level for hour, level in zip(times, levels))
        squares = sum(hour * hour for hour in times)
        total = sum((hour - mean) * (level - low) for hour, level in zip(times, levels))
        squares = sum((d := hour - mean) * d for hour in times)
=======
        total = sum((time - mean) * (level - low) for time, level in zip(times, levels))
        squares = sum((d := time - mean) * d for time in times)
>>>>>>> theirs
    return total / squares
