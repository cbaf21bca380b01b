fn a() {
    if level > 3 && warn {
        publish_warning(level);
    }
}
