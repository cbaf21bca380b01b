pub mod quay_clock;
<<<<<<< ours
pub mod quay_gauge;
=======
>>>>>>> theirs

fn read() -> u32 {
    quay_gauge::level(7)
}
