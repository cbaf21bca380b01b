async def tick(board):
    if board.live:
        rows = await board.client.fetch(
            board.port,
            days=1,
        )
        board.show(rows)
    else:
        board.idle()
