gauges! {
    station Quay {
        metres: 3,
    }
    station Pier {
        metres: 4,
    }
    harbour West {
        station Dock {
            metres: 5,
        }
    }
}
