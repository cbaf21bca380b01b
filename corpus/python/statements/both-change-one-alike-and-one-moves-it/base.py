def refresh(board):
    store(moon, 45)
    if board:
        level = publish(moon)
    return level
