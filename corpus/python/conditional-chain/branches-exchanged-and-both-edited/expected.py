def refresh(board):
    if board.level <= board.limit:
        board.calm()
        board.log(1)
    else:
        board.raise_alarm()
        board.count += 2
