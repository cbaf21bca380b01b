fn settle_board() { lower_flag(); }

fn unit() -> Unit {
    Unit::Metre
}
