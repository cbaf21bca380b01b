pub fn level() -> u32 {
    3
}

async unsafe fn tide(port: &Port) {
    read(port).await
}
