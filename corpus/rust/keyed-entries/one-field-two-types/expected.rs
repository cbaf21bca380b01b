pub struct Settings {
<<<<<<< ours
    pub port: PortCode,
=======
    pub port: Arc<str>,
>>>>>>> theirs
    pub theme: Option<Theme>,
}
