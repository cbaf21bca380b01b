choices! { Unit:
    Feet,
    Metres,
    Fathoms,
}

choices! { Datum:
    Chart,
    Mean,
}

fn read(unit: Unit) -> f64 {
    gauge(unit, 3)
}
