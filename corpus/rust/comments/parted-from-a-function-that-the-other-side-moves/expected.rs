fn name(gauge: &Gauge) -> String {
    gauge.label.trim().into()
}

fn station(gauge: &Gauge) -> u32 {
    gauge.station.unwrap_or_default()
}

/// Heights are in metres.

fn height(gauge: &Gauge) -> f64 {
    gauge.read() + gauge.datum
}
