fn draw(board: &mut Board, day: u32) {
    board.load(day);
    board.marks.push(day);
    board.mark(day, board.name());
}
