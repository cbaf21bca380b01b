use tide::{self, Beam, Deck, East};

fn chart() {}
