def publish(board, port):
    if board.stale > 0:
        board.refresh(port)
        board.note('refreshed', port)
    return board.render(port, wide=True)
