fn level(tide: Tide) -> u32 {
    match tide {
<<<<<<< ours
        High(metres) => 4,
=======
        High | Spring => 4,
>>>>>>> theirs
        _ => 0,
    }
}
