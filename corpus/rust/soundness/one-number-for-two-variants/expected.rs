enum Level {
    Low = 1,
<<<<<<< ours
    Mean = 3,
=======
    Slack = 3,
>>>>>>> theirs
    High = 2,
}
