def mean(rows):
    """Mean height."""
    heights = [row.height for row in rows]
    return sum(heights) / len(heights)
