use tide::units::feet;
use tide::units::metres;

fn low() {}
