use tide::{self, Beam, Crew, East};

fn chart() {}
