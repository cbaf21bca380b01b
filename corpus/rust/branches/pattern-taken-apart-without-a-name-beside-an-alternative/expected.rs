fn level(tide: Tide) -> u32 {
    match tide {
        High(_) | Spring => 4,
        _ => 0,
    }
}
