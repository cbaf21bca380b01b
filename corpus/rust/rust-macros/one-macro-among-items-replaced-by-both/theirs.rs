gauges!("pier");

fn unit() -> Unit {
    Unit::Metre
}
