def publish(board, port):
    if board.stale <= 0:
        return board.render(port)
    board.refresh(port)
    board.note('refreshed', port)
<<<<<<< ours
    return board.render(port)
=======
    return board.render(port, wide=True)
>>>>>>> theirs
