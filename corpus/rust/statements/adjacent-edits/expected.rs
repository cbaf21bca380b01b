fn start(boxed: &mut Quay) {
    boxed.clock.sync("quay");
    boxed.log.rotate(7);
    boxed.display.on();
}
