<<<<<<< ours
use tide::units::{feet, metres};
=======
use tide::units::feet;
>>>>>>> theirs
use tide::units::metres;

fn low() {}
