<<<<<<< ours
fn settle_quay() { lower_gate(); }
=======
fn settle_board() { lower_flag(); }
>>>>>>> theirs

fn unit() -> Unit {
    Unit::Metre
}
