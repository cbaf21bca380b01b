macro_rules! report {
    ($board:expr, $($part:tt)+) => {{
        if open($board) {
            let text = trim(format!($($part)+));
        }
        $board.show(text)
    }};
}
