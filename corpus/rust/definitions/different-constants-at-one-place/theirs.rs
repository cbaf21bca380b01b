const PORT: u16 = 8080;
const THEME: &str = "night";

fn main() {}
