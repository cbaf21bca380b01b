settings! {
    height: bool, true, "Show heights";
    trend: bool, true, "Show all trends";
    zero: [u8; 5], [0, 5], "Where heights begin"
}

bitflags! {
    struct Marks: u32 {
        const LOW = 1;
        const HIGH = 2;
        const SLACK = 4;
        const EBB = 16;
    }
}
