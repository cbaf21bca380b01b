<<<<<<< ours
#[derive(Debug, Clone)]
=======
#[derive(Debug)]
#[derive(Clone)]
>>>>>>> theirs
pub struct Tide {
    level: u8,
}
