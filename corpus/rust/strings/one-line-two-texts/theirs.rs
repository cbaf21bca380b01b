fn usage() -> String {
    style("usage: tideboard PORT...", Style::Bold)
}
