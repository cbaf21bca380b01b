fn publish(board: &mut Board, day: u32) {
    if !board.ready() {
        let page = page(day);
        for lamp in board.lamps() {
            board.show(page);
        }
    }
    board.close();
}
