fn a() {
    if level > 3 {
        if warn {
            record_level(level);
            publish_warning(level, harbour);
        }
    }
}
