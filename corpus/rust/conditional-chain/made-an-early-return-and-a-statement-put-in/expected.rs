fn run() {
    if !ok {
        return;
    }
    let level = read();
    record(level);
    show(level);
}
