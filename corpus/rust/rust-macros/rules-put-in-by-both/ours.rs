macro_rules! gauge {
    ($n:ident, None) => { none!($n) };
    ($n:ident, Low) => { tide!($n) };
    ($n:ident, High) => { tide!($n) };
    ($n:ident, $t:ty) => {};
}
