choices! { Unit:
    Feet,
    Metres,
}

choices! { Datum:
    Chart,
    Mean,
}

fn read(unit: Unit) -> f64 {
    gauge(unit, 2)
}
