fn level(tide: Tide) -> u32 {
    match tide {
        High | Spring => 4,
        _ => 0,
    }
}
