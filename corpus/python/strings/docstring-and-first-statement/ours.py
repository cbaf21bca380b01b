def mean(rows):
    """Mean height, in metres."""
    heights = [row.height for row in rows]
    return sum(heights) / len(heights)
