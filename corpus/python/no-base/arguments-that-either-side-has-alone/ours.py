def refresh(board, gauge, level):
    publish(
        board,
        gauge.name,
        level,
    )
