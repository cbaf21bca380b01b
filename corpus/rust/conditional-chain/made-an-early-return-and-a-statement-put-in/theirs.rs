fn run() {
    if ok {
        let level = read();
        record(level);
        show(level);
    }
}
