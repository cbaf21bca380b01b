fn high() {}

fn low() {}
