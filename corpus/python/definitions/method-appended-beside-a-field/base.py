from dataclasses import dataclass


@dataclass
class Station:
    code: str
    name: str
    lat: float = 0.0
