fn low() {
    use tide::Level;
    use std::cmp::Ordering;
    use std::ops::{Range, RangeFrom};

    let level = connect();
    show(level);
}
