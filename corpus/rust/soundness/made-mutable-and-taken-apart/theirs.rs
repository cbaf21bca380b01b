fn a() {
    let (level, unit) = read();
    show(level);
}
