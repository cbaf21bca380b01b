fn run() {
    if ok {
        let level = read();
        show(level);
    }
    close();
}
