def save(path, board):
    with open(path) as file, board.lock():
        file.write(board.text())
