def high(rows):
    return max(row.height for row in rows)


def trend(rows):
    return rows[-1].height - rows[0].height


def show(board, rows):
    board.write(trend(rows), unit="ft", digits=2)
