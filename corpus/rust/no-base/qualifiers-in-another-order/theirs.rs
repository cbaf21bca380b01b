pub fn level() -> u32 {
    3
}

unsafe async fn tide(port: &Port) {
    read(port).await
}
