choices! { Unit:
    Feet,
    Metres,
}

fn read(unit: Unit) -> f64 {
    gauge(unit, 1)
}
