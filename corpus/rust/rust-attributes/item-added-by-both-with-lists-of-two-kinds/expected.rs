pub struct Port;

<<<<<<< ours
#[derive(Debug, Eq, Clone)]
=======
#[tide_columns(Debug, Copy, Clone)]
>>>>>>> theirs
pub struct Row {
    pub height: f64,
}
