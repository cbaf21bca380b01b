#[derive(Debug, Clone)]
pub struct Tide {
    level: u8,
}
