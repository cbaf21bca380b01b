import tides

gauge = tides.gauge('harbour')
limit = tides.limit(gauge)
report = tides.report(limit)
board = tides.board(report)
print(board.title)
