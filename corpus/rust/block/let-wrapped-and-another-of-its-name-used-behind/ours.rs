fn publish(board: &mut Board) {
    if board.open {
        board.log();
        let depth = board.depth();
        board.send(depth);
    }
    board.close();
    let depth = 3;
    board.note(depth);
}
