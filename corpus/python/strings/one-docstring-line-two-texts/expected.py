def mean(rows):
    """Mean height of the rows.

<<<<<<< ours
    Rows without a height are left out.
=======
    Rows without a height count as zero.
>>>>>>> theirs

    Returns metres.
    """
    heights = [row.height for row in rows if row]
    return sum(heights) / len(heights)


def main(rows):
    print(mean(rows))
