/// Heights are in feet.

fn height(gauge: &Gauge) -> f64 {
    gauge.read() + datum(gauge)
}

fn name(gauge: &Gauge) -> String {
    gauge.label.trim().into()
}

fn station(gauge: &Gauge) -> u32 {
    gauge.station.unwrap_or_default()
}
