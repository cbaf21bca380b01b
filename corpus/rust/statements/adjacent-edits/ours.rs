fn start(boxed: &mut Quay) {
    boxed.clock.sync("quay");
    boxed.log.rotate();
    boxed.display.on();
}
