fn flood(gate: &Gate) {
    gate.stop();
}

fn ebb(gate: &Gate) {
    gate.stop();
}

fn slack(gate: &Gate) {
    gate.stop();
}
