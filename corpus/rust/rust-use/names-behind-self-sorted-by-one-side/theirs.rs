use tide::{self, Arc, Beam, East};

fn chart() {}
