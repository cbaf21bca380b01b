fn highest(board: &Board) -> Option<&Gauge> {
    if board.closed {
        return None;
    }
    let mut gauges = board.gauges.iter();
    gauges.next()
}
