fn start(boxed: &mut Quay) {
    boxed.clock.sync("quay");
    boxed.radio.open();
    boxed.log.rotate();
    boxed.display.on();
}
