import tides

limit = tides.limit('quay')
report = tides.report(limit)
board = tides.board(report)
gauge = tides.gauge('harbour')
print(board.title)
