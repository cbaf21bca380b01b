fn publish(board: &mut Board) {
    board.log();
    let depth = board.depth();
    board.level += depth;
    board.send();
    board.close();
    board.note(depth);
}
