fn a() {
    if let Ok(x) = read() {
        show(x);
    }
}
