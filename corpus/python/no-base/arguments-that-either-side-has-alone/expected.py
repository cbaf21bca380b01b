def refresh(board, gauge, level):
    publish(
<<<<<<< ours
        board,
        gauge.name,
=======
        "level",
        board,
>>>>>>> theirs
        level,
    )
