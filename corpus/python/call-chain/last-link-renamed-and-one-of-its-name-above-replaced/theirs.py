expect(
    Reading(station="kiel", unit="cm")
    .level(100)
    .add(0)
)
