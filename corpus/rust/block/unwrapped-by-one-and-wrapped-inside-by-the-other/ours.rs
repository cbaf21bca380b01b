fn publish(board: &mut Board, day: u32) {
    let page = page(day);
    board.show(page);
    board.close();
}
