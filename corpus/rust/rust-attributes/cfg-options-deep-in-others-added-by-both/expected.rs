pub fn has_radio() -> bool {
    cfg!(not(any(all(unix, test, debug_assertions), windows, feature = "quiet", feature = "wired")))
}
