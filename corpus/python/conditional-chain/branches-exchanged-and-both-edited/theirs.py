def refresh(board):
    if board.level > board.limit:
        board.raise_alarm()
        board.count += 2
    else:
        board.calm()
        board.log(1)
