pub fn names(gauges: Gauges) -> Vec<String> {
    gauges
        .flat_map(|gauge| gauge.ports_near(DELFT))
        .map(Port::shortened)
        .collect()
}
