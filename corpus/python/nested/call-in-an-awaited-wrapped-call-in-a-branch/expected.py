async def tick(board):
    if board.live or board.demo:
        rows = await board.client.fetch(
            board.port,
            days=1,
            unit="m",
        )
        board.show(rows)
    else:
        board.idle()
