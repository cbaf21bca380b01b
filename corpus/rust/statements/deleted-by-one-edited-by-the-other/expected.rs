fn start(boxed: &mut Quay) {
    boxed.clock.sync();
<<<<<<< ours
=======
    boxed.log.rotate(7);
>>>>>>> theirs
    boxed.display.on(80);
}
