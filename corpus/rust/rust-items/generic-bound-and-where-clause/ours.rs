pub fn save<W: Write + Send>(board: &Board, out: W) -> io::Result<()> {
    board.write(out)
}
