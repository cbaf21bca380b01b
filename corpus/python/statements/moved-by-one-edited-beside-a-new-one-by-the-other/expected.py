import tides
<<<<<<< ours

=======
depth = tides.depth(gauge)
>>>>>>> theirs
limit = tides.limit('quay')
report = tides.report(limit)
board = tides.board(report)
gauge = tides.gauge('harbour', unit='ft')
print(board.title)
