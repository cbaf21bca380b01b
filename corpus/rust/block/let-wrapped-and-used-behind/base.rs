fn publish(board: &mut Board) {
    board.log();
    let depth = board.depth();
    board.send(depth);
    board.close();
}
