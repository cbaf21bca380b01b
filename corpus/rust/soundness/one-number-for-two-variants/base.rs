enum Level {
    Low = 1,
    High = 2,
}
