fn leg(a: &Gauge, b: &Gauge) -> f64 {
    haversine(a.latitude(), a.lon, b.lat, b.lon, EARTH)
}
