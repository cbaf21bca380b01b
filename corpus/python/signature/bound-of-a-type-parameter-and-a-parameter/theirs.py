def nearest[T](stations: list[T], at: Point, limit: float = 10.0) -> T:
    return min(stations, key=lambda s: distance(s, at, limit))
