fn start(boxed: &mut Quay) {
    boxed.clock.sync();
    let keep: u8 = 7;
    boxed.log.rotate(keep);
    boxed.display.on();
}
