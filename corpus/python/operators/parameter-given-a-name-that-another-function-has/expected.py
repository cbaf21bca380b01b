class Board:
    def dim(self, light):
        if not light or light not in self.lights:
            return None
        self.lights.remove(light)
        return light

    def count(self, light):
        return self.lights.count(light)
