struct Mark {
    level: i64,
    wind: i64,
}

fn refresh(mark: &mut Mark) {
    mark.level = tide();
    mark.wind = gauge();
}

fn publish(mark: &Mark) -> i64 {
    mark.level + mark.wind
}
