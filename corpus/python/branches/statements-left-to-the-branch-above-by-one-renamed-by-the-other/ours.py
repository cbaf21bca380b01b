def drift(times, levels, *, still=False):
    """The drift of a gauge."""
    if len(times) < 2:
        raise TideError("a drift needs two readings at least")
        total = sum((time - mean) * (level - low) for time, level in zip(times, levels))
        squares = sum((d := time - mean) * d for time in times)
    return total / squares
