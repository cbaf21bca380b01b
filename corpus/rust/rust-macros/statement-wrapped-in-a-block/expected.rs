macro_rules! report {
    ($board:expr, $($part:tt)+) => {{
        if open($board) {
            let text = format!($($part)+, unit);
        }
        $board.show(text)
    }};
}
