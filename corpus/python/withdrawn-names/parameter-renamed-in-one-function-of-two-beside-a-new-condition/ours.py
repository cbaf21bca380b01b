def draw(screen):
    screen.clear()
    for row in screen.rows:
        if row.public:
            row.paint()
        row.settle()
    return screen


def publish(board):
    return board.rows
