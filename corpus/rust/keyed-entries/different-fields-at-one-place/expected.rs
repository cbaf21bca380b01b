pub struct Settings {
    pub port: String,
    pub theme: Theme,
    pub retries: u32,
    /// Minutes between two polls.
    pub pause: u32,
}
