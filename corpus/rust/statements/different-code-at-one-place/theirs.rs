fn start(boxed: &mut Quay) {
    boxed.clock.sync();
    boxed.lamp.test();
    boxed.log.rotate(7);
    boxed.display.on();
}
