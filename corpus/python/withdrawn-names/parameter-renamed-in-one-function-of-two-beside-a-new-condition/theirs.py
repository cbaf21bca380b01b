def draw(board):
    board.clear()
    for row in board.rows:
        if row.public:
            row.paint()
        if not board.frozen:
            row.settle()
    return board


def publish(board):
    return board.rows
