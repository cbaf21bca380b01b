fn start(boxed: &mut Quay) {
    boxed.clock.sync();
    boxed.display.on();
}
