<<<<<<< ours
=======
use tideboard::sources::feed::Reading;
>>>>>>> theirs
use tideboard::units::Metres;

fn main() {}
