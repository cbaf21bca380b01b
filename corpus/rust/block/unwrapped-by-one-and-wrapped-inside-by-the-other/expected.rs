fn publish(board: &mut Board, day: u32) {
    let page = page(day);
    for lamp in board.lamps() {
        board.show(page);
    }
    board.close();
}
