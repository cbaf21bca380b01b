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
<<<<<<< ours
    gauge(unit, 2)
=======
    gauge(unit, 3)
>>>>>>> theirs
}
