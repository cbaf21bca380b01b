fn draw(board: &Board, level: u32) {
    let mark = Some(read(level, Unit::Metre));
    board.flush();
}
