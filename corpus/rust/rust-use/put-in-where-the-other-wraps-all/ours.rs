fn low() {
    if quay.ready() {
        use tide::Level;
        use std::cmp::Ordering;

        let level = connect();
        show(level);
    }
}
