const PORT: u16 = 8080;
const THEME: &str = "night";
const RETRIES: usize = 3;

fn main() {}
