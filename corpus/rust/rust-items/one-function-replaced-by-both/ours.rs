fn settle_quay() { lower_gate(); }

fn unit() -> Unit {
    Unit::Metre
}
