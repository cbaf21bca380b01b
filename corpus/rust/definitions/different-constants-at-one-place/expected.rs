const PORT: u16 = 8080;
const RETRIES: usize = 3;
const THEME: &str = "night";

fn main() {}
