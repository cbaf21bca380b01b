#[derive(Debug)]
#[derive(Clone)]
pub struct Tide {
    level: u8,
}
