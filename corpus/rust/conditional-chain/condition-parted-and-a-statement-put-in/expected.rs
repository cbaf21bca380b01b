fn a() {
<<<<<<< ours
    if level > 3 {
        if warn {
            publish_warning(level, harbour);
        }
=======
    if level > 3 && warn {
        record_level(level);
        publish_warning(level, harbour);
>>>>>>> theirs
    }
}
