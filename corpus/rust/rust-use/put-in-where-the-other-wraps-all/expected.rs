fn low() {
    if quay.ready() {
        use tide::Level;
        use std::cmp::Ordering;
        use std::ops::{Range, RangeFrom};

        let level = connect();
        show(level);
    }
}
