use tideboard::sources::feed::Reading;
use tideboard::units::Metres;

fn main() {}
