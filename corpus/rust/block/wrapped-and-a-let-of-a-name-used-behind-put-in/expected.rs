fn publish(board: &mut Board) -> i64 {
    let depth = board.depth();
    {
        board.log();
<<<<<<< ours
=======
        let depth = depth + 3;
>>>>>>> theirs
        board.level += depth;
        board.send();
    }
    depth
}
