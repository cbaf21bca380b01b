fn publish(board: &mut Board, day: u32) {
    if !board.ready() {
        let page = page(day);
        board.show(page);
    }
    board.close();
}
