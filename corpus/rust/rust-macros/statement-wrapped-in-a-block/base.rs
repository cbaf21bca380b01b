macro_rules! report {
    ($board:expr, $($part:tt)+) => {{
        let text = format!($($part)+);
        $board.show(text)
    }};
}
