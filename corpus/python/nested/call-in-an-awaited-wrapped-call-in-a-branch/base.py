async def tick(board):
    if board.live:
        rows = board.client.fetch(board.port, days=1)
        board.show(rows)
    else:
        board.idle()
