pub fn names(gauges: Gauges) -> Vec<String> {
    gauges
        .flat_map(Gauge::ports)
        .map(|mut port| {
            if let Some(short) = port.short() {
                port.rename(short.trim().to_owned());
            }
            port.into_name()
        })
        .collect()
}
