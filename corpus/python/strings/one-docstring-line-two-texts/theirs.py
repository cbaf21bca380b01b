def mean(rows):
    """Mean height of the rows.

    Rows without a height count as zero.

    Returns metres.
    """
    heights = [row.height for row in rows if row]
    return sum(heights) / len(heights)


def main(rows):
    print(mean(rows))
