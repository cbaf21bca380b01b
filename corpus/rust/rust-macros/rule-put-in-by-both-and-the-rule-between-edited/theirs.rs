macro_rules! gauge {
    ($n:ident, None) => { none!($n) };
    ($n:ident, High) => { tide!($n) };
    ($n:ident, Low) => { tide!($n, 0) };
    ($n:ident, $t:ty) => {};
}
