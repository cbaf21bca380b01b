fn level(day: Day) -> Level {
    tide::at(day)
}

fn warn_harbour(day: Day, limits: &Limits, bus: &mut Bus) -> Level {
    let high = tide::highest(day);
    if high > limits.high {
        bus.send("high water", high);
        bus.log("sent", day, high);
    } else {
        bus.log("calm", day, high);
    }
    high
}
