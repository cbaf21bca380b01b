fn publish(board: &mut Board) {
    board.log();
    let depth = board.depth();
    board.send(depth);
    board.close();
    let depth = 3;
    board.note(depth);
}
