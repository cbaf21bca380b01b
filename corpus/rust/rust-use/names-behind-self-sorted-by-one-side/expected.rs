use tide::{self, Arc, Beam, Crew, East};

fn chart() {}
