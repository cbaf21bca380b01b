def draw(screen):
    screen.clear()
    for row in screen.rows:
        if row.public:
            row.paint()
<<<<<<< ours
        row.settle()
=======
        if not board.frozen:
            row.settle()
>>>>>>> theirs
    return screen


def publish(board):
    return board.rows
