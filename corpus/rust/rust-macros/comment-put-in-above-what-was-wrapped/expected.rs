gauges! {
    station Quay {
        metres: 3,
    }
    station Pier {
        metres: 4,
    }
    // As the harbour measures it.
    harbour West {
        station Dock {
            metres: 5,
        }
    }
}
