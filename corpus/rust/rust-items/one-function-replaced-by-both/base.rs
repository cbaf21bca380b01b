fn settle() { lower(); }

fn unit() -> Unit {
    Unit::Metre
}
