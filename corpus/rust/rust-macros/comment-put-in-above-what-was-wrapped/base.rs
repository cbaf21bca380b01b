gauges! {
    station Quay {
        metres: 3,
    }
    station Pier {
        metres: 4,
    }
    station Dock {
        metres: 5,
    }
}
