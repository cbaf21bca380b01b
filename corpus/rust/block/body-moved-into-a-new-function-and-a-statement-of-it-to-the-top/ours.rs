fn show(station: u32, days: u32) -> u32 {
    show_days(station, days)
}

fn show_days(station: u32, days: u32) -> u32 {
    for day in 0..days {
        draw(station, day);
    }
    let levels = forecast(station, days);
    mark(station, &levels);
    levels.high
}

fn stations() -> u32 {
    2
}
