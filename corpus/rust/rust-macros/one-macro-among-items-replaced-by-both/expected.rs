<<<<<<< ours
gates!("quay", strict);
=======
gauges!("pier");
>>>>>>> theirs

fn unit() -> Unit {
    Unit::Metre
}
