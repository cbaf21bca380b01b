enum Level {
    Low = 1,
    Slack = 3,
    High = 2,
}
