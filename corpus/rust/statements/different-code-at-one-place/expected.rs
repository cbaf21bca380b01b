fn start(boxed: &mut Quay) {
    boxed.clock.sync("quay");
<<<<<<< ours
    boxed.radio.open();
=======
    boxed.lamp.test();
>>>>>>> theirs
    boxed.log.rotate(7);
    boxed.display.on();
}
