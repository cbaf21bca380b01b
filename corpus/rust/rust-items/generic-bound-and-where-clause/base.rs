pub fn save<W: Write>(board: &Board, out: W) -> io::Result<()> {
    board.write(out)
}
