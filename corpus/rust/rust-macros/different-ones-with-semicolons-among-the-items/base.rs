thread_local!(static BOARD: Board = Board::new());

fn main() {}
