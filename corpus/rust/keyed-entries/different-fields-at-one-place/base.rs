pub struct Settings {
    pub port: String,
    pub theme: Theme,
}
