def refresh(board):
    store(tide, 45)
    if board:
        level = publish(moon)
    return level, tide
