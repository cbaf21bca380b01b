expect(
    Reading(station="kiel", unit="cm")
    .add(Reading.log("stdio", level=100))
    .exit(0)
)
