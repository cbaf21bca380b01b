fn publish(board: &mut Board) -> i64 {
    let depth = board.depth();
    {
        board.log();
        let depth = depth + 3;
        board.level += depth;
        board.send();
    }
    depth
}
