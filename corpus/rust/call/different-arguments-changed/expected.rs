fn leg(a: &Gauge, b: &Gauge) -> f64 {
    haversine(a.lat, a.longitude(), b.latitude(), b.lon)
}
