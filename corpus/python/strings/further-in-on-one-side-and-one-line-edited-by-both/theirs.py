def publish(board):
    query = """
      select level, lamp
      from tides
      where station = ? and live
    """
    board.send(query)
