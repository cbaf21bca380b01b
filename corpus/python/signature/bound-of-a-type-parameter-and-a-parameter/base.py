def nearest[T](stations: list[T], at: Point) -> T:
    return min(stations, key=lambda s: distance(s, at))
