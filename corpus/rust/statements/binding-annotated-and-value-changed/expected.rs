fn start(boxed: &mut Quay) {
    boxed.clock.sync();
    let keep: u8 = 14;
    boxed.log.rotate(keep);
    boxed.display.on();
}
