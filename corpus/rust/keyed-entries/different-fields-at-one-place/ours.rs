pub struct Settings {
    pub port: String,
    pub theme: Theme,
    pub retries: u32,
}
