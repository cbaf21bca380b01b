def leg(a, b):
    """Distance between two gauges, in miles."""
    return haversine(a.latitude, a.lon, b.lat, normal(b.lon))
