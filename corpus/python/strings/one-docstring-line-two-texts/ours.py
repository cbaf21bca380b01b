def mean(rows):
    """Mean height of the rows.

    Rows without a height are left out.

    Returns metres.
    """
    heights = [row.height for row in rows if row]
    return sum(heights) / len(heights)


def main(rows):
    print(mean(rows))
