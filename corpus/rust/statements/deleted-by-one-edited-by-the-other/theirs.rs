fn start(boxed: &mut Quay) {
    boxed.clock.sync();
    boxed.log.rotate(7);
    boxed.display.on(80);
}
