fn draw(board: &mut Board, turn: u8) {
    match turn % 5 {
        0 => board.clear(),
        1 | 3 => {
            board.level += 1;
            board.paint();
        }
        _ => {}
    }
}
