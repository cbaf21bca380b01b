fn a() { b() }
