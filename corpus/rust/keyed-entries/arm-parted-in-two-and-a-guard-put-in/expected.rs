fn draw(board: &mut Board, turn: u8) {
    match turn % 5 {
        0 => board.clear(),
        1 => {
            board.level += 1;
            board.paint();
        }
<<<<<<< ours
        3 => {
=======
        1 | 3 if board.live => {
>>>>>>> theirs
            board.level += 1;
            board.paint();
        }
        _ => {}
    }
}
