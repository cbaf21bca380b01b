def leg(a, b):
    """Distance between two gauges, in miles."""
    return haversine(a.lat, a.lon, b.lat, normal(b.lon))
