expect(
    Reading(station="kiel", unit="cm")
    .level(100)
    .exit(0)
)
