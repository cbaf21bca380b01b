pub struct Settings {
    pub port: Arc<str>,
    pub theme: Option<Theme>,
}
