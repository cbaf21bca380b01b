fn highest<'b>(board: &'b Board) -> Option<&'b Gauge> {
    let mut gauges = board.gauges.values();
    gauges.next()
}
