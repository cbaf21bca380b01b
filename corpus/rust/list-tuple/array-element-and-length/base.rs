const LEVELS: [u32; 24] = [0; 24];
fn empty() -> [u32; 24] {
    [level(0, 0); hours(1, 1)]
}
