fn publish(gauge: impl Gauge + Send + Clone) {}
