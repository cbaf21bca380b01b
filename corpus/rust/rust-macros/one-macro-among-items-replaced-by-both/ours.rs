gates!("quay", strict);

fn unit() -> Unit {
    Unit::Metre
}
