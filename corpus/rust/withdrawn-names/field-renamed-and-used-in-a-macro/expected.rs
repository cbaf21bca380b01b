struct Mark {
    depth: i64,
    wind: i64,
}

fn refresh(mark: &mut Mark) {
    mark.depth = tide();
<<<<<<< ours
=======
    board.extend(vec![mark.level, 3]);
>>>>>>> theirs
    mark.wind = gauge();
}

fn publish(mark: &Mark) -> i64 {
    mark.depth + mark.wind
}
