const PORT: u16 = 8080;
fn main() {}
