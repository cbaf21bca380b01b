<<<<<<< ours
pub fn refresh(level: f64) {}
=======
pub(crate) fn refresh(level: f64) {}
>>>>>>> theirs
