fn level(tide: Tide) -> u32 {
    match tide {
        High(_) => 4,
        _ => 0,
    }
}
