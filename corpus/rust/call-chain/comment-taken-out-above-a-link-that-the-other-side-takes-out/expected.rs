fn levels(port: &Port) -> Vec<Level> {
    port.readings()
        .filter(|reading| reading.is_valid())
        .collect()
}
