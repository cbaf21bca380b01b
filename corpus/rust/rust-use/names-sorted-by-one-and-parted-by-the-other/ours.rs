use tide::units::{feet, metres};

fn low() {}
