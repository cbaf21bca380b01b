gauges!("quay");

fn unit() -> Unit {
    Unit::Metre
}
