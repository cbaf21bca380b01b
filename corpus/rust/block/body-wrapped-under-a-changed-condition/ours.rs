fn watch(level: u32) {
    if level > 598 {
        if warn {
            if harbour {
                publish_warning(level);
            }
        }
    }
}
