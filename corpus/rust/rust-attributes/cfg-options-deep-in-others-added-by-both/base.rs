pub fn has_radio() -> bool {
    cfg!(not(any(all(unix, test), windows)))
}
