fn usage() -> String {
    style("usage: tideboard [--day DAY] PORT", Style::Plain)
}
