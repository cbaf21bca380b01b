fn leg(a: &Gauge, b: &Gauge) -> f64 {
<<<<<<< ours
    haversine(a.latitude(), a.lon, b.lat, b.lon, Unit::Miles)
=======
    haversine(a.latitude(), a.lon, b.lat, b.lon, EARTH)
>>>>>>> theirs
}
