fn run() {
    if !ok {
        return;
    }
    let level = read();
    show(level);
}
