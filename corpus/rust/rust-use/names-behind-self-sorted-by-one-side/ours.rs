use tide::{self, East, Beam, Arc, Crew};

fn chart() {}
