pub fn board() {}
