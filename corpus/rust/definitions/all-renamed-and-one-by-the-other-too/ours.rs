const QUAY_PORT: u16 = 8080;
fn start() {}
