use tide::units::{metres, feet};

fn low() {}
