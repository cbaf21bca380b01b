pub fn save<W: Write>(board: &Board, mut out: W) -> io::Result<()> {
    board.write(&mut out)
}
