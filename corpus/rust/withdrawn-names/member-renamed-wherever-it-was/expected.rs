fn flood(gate: &Gate) {
    gate.halt();
}

fn ebb(gate: &Gate) {
    gate.halt();
}

fn slack(gate: &Gate) {
    gate.halt();
    gate.log();
}
<<<<<<< ours
=======

fn storm(gate: &Gate) {
    gate.lower();
    gate.stop();
}
>>>>>>> theirs
