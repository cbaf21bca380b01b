enum Level {
    Low = 1,
    Mean = 3,
    High = 2,
}
