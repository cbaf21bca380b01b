def refresh(board, gauge, level):
    publish(
        "level",
        board,
        level,
    )
