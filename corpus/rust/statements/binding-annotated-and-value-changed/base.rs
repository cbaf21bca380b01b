fn start(boxed: &mut Quay) {
    boxed.clock.sync();
    let keep = 7;
    boxed.log.rotate(keep);
    boxed.display.on();
}
