fn refresh(board: &mut Board, port: u16) {
    if let Some(gauge) = board.gauge(port) {
        board.show(gauge.level);
        board.note(port);
    }
}
