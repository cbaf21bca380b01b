fn a() { b() }

fn c() {}
