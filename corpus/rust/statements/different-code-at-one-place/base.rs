fn start(boxed: &mut Quay) {
    boxed.clock.sync();
    boxed.log.rotate();
    boxed.display.on();
}
