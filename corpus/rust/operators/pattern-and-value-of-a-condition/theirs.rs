fn a() {
    if let Some(x) = fetch() {
        show(x);
    }
}
