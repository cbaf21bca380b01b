<<<<<<< ours
gauges!("pier");
=======
gates!("quay", strict);
>>>>>>> theirs

fn unit() -> Unit {
    Unit::Metre
}
