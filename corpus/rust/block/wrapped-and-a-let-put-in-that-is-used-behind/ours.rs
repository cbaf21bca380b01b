fn publish(board: &mut Board) {
    if board.open {
        board.log();
        board.level += 2;
        board.send();
    }
    board.close();
}
