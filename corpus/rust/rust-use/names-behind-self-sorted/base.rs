use tide::{self, Beam, East};

fn chart() {}
