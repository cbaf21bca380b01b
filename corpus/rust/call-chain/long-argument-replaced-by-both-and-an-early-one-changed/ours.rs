pub fn names(gauges: Gauges) -> Vec<String> {
    gauges
        .flat_map(Gauge::ports)
        .map(Port::shortened)
        .collect()
}
