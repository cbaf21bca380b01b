fn publish(gauge: impl Gauge + Send + Sync) {}
