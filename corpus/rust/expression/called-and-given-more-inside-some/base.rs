fn draw(board: &Board, level: u32) {
    let mark = read(level);
    board.flush();
}
