fn refresh(board: &mut Board, port: u16) {
    let Some(gauge) = board.gauge(port) else {
        return;
    };
    board.show(gauge.level);
    board.note(port);
}
