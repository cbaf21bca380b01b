fn show(station: u32, days: u32) -> u32 {
<<<<<<< ours
    show_days(station, days)
}

fn show_days(station: u32, days: u32) -> u32 {
=======
    let levels = forecast(station, days);
>>>>>>> theirs
    for day in 0..days {
        draw(station, day);
    }
    mark(station, &levels);
    levels.high
}

fn stations() -> u32 {
    2
}
