use tideboard::feed::Reading;
use tideboard::units::Metres;

fn main() {}
