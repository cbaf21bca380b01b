fn level(tide: Tide) -> u32 {
    match tide {
        High => 4,
        _ => 0,
    }
}
