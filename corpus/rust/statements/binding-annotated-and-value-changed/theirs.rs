fn start(boxed: &mut Quay) {
    boxed.clock.sync();
    let keep = 14;
    boxed.log.rotate(keep);
    boxed.display.on();
}
