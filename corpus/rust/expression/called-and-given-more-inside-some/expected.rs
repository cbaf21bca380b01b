fn draw(board: &Board, level: u32) {
    let mark = Some(read(level + 1, Unit::Metre));
    board.flush();
}
