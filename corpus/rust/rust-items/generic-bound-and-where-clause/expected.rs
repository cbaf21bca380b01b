pub fn save<W: Write + Send>(board: &Board, mut out: W) -> io::Result<()> {
    board.write(&mut out)
}
