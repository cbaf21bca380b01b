pub struct Settings {
    pub port: String,
    pub theme: Theme,
    /// Minutes between two polls.
    pub pause: u32,
}
