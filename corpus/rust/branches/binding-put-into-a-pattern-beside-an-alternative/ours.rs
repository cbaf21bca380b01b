fn level(tide: Tide) -> u32 {
    match tide {
        High(metres) => 4,
        _ => 0,
    }
}
