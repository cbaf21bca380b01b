use tide::{self, Beam, Crew, Deck, East};

fn chart() {}
