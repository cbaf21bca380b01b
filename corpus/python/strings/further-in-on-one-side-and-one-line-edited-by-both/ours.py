def publish(board):
    query = """
        select level, wind
        from tides
        where station = ?
    """
    board.send(query)
