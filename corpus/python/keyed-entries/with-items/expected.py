def save(path, board):
    with open(path, "w") as file, board.lock(wait=5), board.pause():
        file.write(board.text())
