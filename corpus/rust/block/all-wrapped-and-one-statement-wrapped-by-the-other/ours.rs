fn draw(board: &mut Board, day: u32) {
    while board.waits() {
        board.load(day);
        board.marks.push(day);
        board.mark(day, board.name());
    }
}
