def refresh(board):
    if board.level <= board.limit:
        board.calm()
        board.log()
    else:
        board.raise_alarm()
        board.count += 1
