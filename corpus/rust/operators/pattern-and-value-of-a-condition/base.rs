fn a() {
    if let Some(x) = read() {
        show(x);
    }
}
