fn watch(level: u32) {
    if level > 3 {
        if warn {
            publish_warning(level);
        }
    }
}
