def publish(board):
    query = """
      select level
      from tides
      where station = ?
    """
    board.send(query)
