from dataclasses import dataclass


@dataclass
class Station:
    code: str
    name: str
    lat: float = 0.0
    datum: str = "LAT"

    def label(self):
        return f"{self.name} ({self.code})"
