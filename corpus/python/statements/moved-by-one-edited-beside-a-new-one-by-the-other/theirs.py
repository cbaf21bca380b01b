import tides

gauge = tides.gauge('harbour', unit='ft')
depth = tides.depth(gauge)
limit = tides.limit(gauge)
report = tides.report(limit)
board = tides.board(report)
print(board.title)
