fn level(day: Day) -> Level {
    tide::at(day)
}
