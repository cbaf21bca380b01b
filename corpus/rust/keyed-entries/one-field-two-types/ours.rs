pub struct Settings {
    pub port: PortCode,
    pub theme: Theme,
}
