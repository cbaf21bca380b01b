fn a() { c() }
