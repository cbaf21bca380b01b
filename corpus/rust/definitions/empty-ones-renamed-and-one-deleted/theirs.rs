pub mod clock;

fn read() -> u32 {
    gauge::level(7)
}
