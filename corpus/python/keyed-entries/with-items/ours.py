def save(path, board):
    with open(path, "w") as file, board.lock():
        file.write(board.text())
