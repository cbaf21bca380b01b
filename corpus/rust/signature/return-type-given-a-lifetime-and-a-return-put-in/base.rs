fn highest(board: &Board) -> Option<&Gauge> {
    let mut gauges = board.gauges.iter();
    gauges.next()
}
