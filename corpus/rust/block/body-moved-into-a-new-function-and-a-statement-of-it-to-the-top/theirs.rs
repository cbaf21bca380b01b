fn show(station: u32, days: u32) -> u32 {
    let levels = forecast(station, days);
    for day in 0..days {
        draw(station, day);
    }
    mark(station, &levels);
    levels.high
}

fn stations() -> u32 {
    2
}
