def mean(rows):
    """Mean height of the rows.

    Rows without a height are skipped.

    Returns metres above datum.
    """
    heights = [row.height for row in rows if row]
    return sum(heights) / len(heights)


def render(row):
    time, height = row
    stamp = time.strip()
    bar = "#" * round(height)
    if not bar:
        bar = "-"
    if height < 0:
        bar = "!"
    line = f"{stamp} {bar} {height}"
    return line.rstrip()


def main(rows):
    print(mean(rows))
