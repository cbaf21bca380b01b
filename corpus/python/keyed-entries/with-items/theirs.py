def save(path, board):
    with open(path) as file, board.lock(wait=5), board.pause():
        file.write(board.text())
