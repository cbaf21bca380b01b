<<<<<<< ours
fn settle_board() { lower_flag(); }
=======
fn settle_quay() { lower_gate(); }
>>>>>>> theirs

fn unit() -> Unit {
    Unit::Metre
}
