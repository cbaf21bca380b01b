fn publish(board: &mut Board) {
    board.log();
    board.level += 2;
    board.send();
    board.close();
}
