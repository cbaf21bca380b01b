fn weight(tide: &Tide) -> i64 {
    if let Tide::Low(depth) = tide {
        let drift = depth * 3;
        drift + 1
    } else if let Tide::High(depth) = tide {
        let swell = depth * 5;
        swell + 2
    } else {
        0
    }
}
