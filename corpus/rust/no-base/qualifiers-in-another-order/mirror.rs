pub fn level() -> u32 {
    3
}

<<<<<<< ours
unsafe async fn tide(port: &Port) {
=======
async unsafe fn tide(port: &Port) {
>>>>>>> theirs
    read(port).await
}
