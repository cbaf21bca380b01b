settings! {
    height: bool, false, "Show heights";
    trend: bool, true, "Show trends";
    zero: [u8; 5], [0; 5], "Where heights begin";
    wave: bool, true, "Show waves"
}

bitflags! {
    struct Marks: u32 {
        const LOW = 8;
        const HIGH = 2;
        const SLACK = 4;
    }
}
