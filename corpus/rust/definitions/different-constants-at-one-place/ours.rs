const PORT: u16 = 8080;
const RETRIES: usize = 3;

fn main() {}
