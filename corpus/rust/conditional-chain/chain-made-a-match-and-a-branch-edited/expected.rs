fn weight(tide: &Tide) -> i64 {
    match tide {
        Tide::Low(depth) => {
            let drift = depth * 3;
            drift + 1
        }
        Tide::High(depth) => {
            let swell = depth * 7;
            swell + 2
        }
        _ => 0,
    }
}
