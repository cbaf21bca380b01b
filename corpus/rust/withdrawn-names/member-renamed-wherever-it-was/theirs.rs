fn flood(gate: &Gate) {
    gate.stop();
}

fn ebb(gate: &Gate) {
    gate.stop();
}

fn slack(gate: &Gate) {
    gate.stop();
    gate.log();
}

fn storm(gate: &Gate) {
    gate.lower();
    gate.stop();
}
