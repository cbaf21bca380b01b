macro_rules! report {
    ($board:expr, $($part:tt)+) => {{
<<<<<<< ours
        let text = format!($($part)+, unit);
=======
        if open($board) {
            let text = trim(format!($($part)+));
        }
>>>>>>> theirs
        $board.show(text)
    }};
}
