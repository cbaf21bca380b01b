fn usage() -> String {
<<<<<<< ours
    style("usage: tideboard [--day DAY] PORT", Style::Bold)
=======
    style("usage: tideboard PORT...", Style::Bold)
>>>>>>> theirs
}
