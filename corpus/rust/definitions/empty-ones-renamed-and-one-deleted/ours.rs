pub mod quay_clock;
pub mod quay_gauge;

fn read() -> u32 {
    quay_gauge::level(7)
}
