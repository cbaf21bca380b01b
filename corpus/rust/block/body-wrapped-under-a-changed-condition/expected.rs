fn watch(level: u32) {
<<<<<<< ours
    if level > 598 {
=======
    if level < 3 {
>>>>>>> theirs
        if warn {
            if harbour {
                publish_warning(
                    level,
                );
            }
        }
    }
}
