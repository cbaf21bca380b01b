macro_rules! gauge {
    ($n:ident, None) => { none!($n) };
    ($n:ident, Low) => { tide!($n) };
<<<<<<< ours
    ($n:ident, High) => { tide!($n) };
=======
    ($n:ident, Mean) => { tide!($n) };
>>>>>>> theirs
    ($n:ident, $t:ty) => {};
}
