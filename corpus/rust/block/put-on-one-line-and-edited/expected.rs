fn a() { b(3) }

fn c() {}
