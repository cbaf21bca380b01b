fn a() {
    if level > 3 && warn {
        record_level(level);
        publish_warning(level, harbour);
    }
}
