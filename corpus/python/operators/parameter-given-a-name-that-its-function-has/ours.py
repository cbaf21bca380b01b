class Board:
    def dim(self, light):
        if not light or light not in self.lamps:
            return None
        self.lamps.remove(light)
        for light in self.lamps:
            light.dim()
        return light

    def count(self, light):
        return self.lamps.count(light)
