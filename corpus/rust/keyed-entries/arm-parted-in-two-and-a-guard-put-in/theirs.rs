fn draw(board: &mut Board, turn: u8) {
    match turn % 5 {
        0 => board.clear(),
        1 | 3 if board.live => {
            board.level += 1;
            board.paint();
        }
        _ => {}
    }
}
