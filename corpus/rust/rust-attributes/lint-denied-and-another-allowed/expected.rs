<<<<<<< ours
#[deny(dead_code)]
=======
#[allow(dead_code, unused_variables)]
>>>>>>> theirs
pub fn neap(level: f64) -> bool {
    level < 1.2
}
