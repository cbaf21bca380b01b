thread_local!(static BOARD: Board = Board::new());
assert_send!(Board);

fn main() {}
