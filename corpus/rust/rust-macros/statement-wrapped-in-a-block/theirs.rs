macro_rules! report {
    ($board:expr, $($part:tt)+) => {{
        if open($board) {
            let text = format!($($part)+);
        }
        $board.show(text)
    }};
}
