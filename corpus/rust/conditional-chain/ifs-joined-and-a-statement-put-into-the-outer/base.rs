fn a() {
    if level > 3 {
        if warn {
            publish_warning(level);
        }
    }
}
