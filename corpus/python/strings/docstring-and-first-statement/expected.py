def mean(rows):
    """Mean height, in metres."""
    heights = [row.height for row in rows if row]
    return sum(heights) / len(heights)
