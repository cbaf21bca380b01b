pub fn level() -> u32 {
    3
}

<<<<<<< ours
async unsafe fn tide(port: &Port) {
=======
unsafe async fn tide(port: &Port) {
>>>>>>> theirs
    read(port).await
}
