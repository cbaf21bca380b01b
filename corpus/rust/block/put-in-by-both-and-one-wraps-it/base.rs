fn draw(board: &Board, level: u32) {
    log("drawn");
    board.put(level);
    board.flush();
}
