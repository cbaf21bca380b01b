#[derive(Debug)]
pub struct Tide {
    level: u8,
}
