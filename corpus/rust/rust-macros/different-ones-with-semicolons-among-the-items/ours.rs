thread_local!(static BOARD: Board = Board::new());
assert_sizes!(Level, 8);

fn main() {}
