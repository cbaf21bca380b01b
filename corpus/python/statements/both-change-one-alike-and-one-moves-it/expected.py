def refresh(board):
    if board:
        level = publish(moon)
    store(tide, 45)
    return level, tide
