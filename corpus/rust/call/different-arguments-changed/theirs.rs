fn leg(a: &Gauge, b: &Gauge) -> f64 {
    haversine(a.lat, a.lon, b.latitude(), b.lon)
}
