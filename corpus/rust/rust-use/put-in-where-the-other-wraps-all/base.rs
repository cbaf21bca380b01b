fn low() {
    use tide::Level;
    use std::cmp::Ordering;

    let level = connect();
    show(level);
}
