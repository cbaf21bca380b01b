def publish(board):
    query = """
<<<<<<< ours
        select level, wind
=======
        select level, lamp
>>>>>>> theirs
        from tides
        where station = ? and live
    """
    board.send(query)
