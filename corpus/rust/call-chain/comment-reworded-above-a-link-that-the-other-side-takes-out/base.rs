fn levels(port: &Port) -> Vec<Level> {
    port.readings()
        .filter(|reading| reading.is_valid())
        // The gauge counts in feet.
        .map(|reading| reading.in_metres())
        .collect()
}
