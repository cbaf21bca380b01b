fn highest<'b>(board: &'b Board) -> Option<&'b Gauge> {
    if board.closed {
        return None;
    }
    let mut gauges = board.gauges.values();
    gauges.next()
}
