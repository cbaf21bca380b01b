use tide::{self, East, Beam, Arc};

fn chart() {}
