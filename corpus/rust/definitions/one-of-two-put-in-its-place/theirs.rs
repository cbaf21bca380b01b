const PORT: u16 = 8080;
const DEPTH: u32 = 53;
fn start() {}
