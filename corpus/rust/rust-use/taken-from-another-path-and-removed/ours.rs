use tideboard::units::Metres;

fn main() {}
