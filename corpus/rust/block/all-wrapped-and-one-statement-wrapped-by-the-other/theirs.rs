fn draw(board: &mut Board, day: u32) {
    board.load(day);
    if day > 0 {
        board.marks.push(day);
    }
    board.mark(day, board.name());
}
