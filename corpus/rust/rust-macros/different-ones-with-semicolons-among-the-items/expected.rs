thread_local!(static BOARD: Board = Board::new());
assert_sizes!(Level, 8);
assert_send!(Board);

fn main() {}
