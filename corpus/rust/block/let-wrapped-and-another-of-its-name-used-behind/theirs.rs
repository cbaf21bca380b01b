fn publish(board: &mut Board) {
    board.log();
    let depth = board.depth();
    board.send(depth, 3);
    board.close(1);
    let depth = 3;
    board.note(depth, 5);
}
