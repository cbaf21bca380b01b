fn draw(board: &Board, level: u32) {
    log("drawn");
    unsafe {
        board.put(level);
        board.mark(level);
    }
    board.flush();
}
