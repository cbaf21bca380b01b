class Board:
    def dim(self, lamp):
        if not lamp or lamp not in self.lights:
            return None
        self.lights.remove(lamp)
        for light in self.lights:
            light.dim()
        return lamp

    def count(self, light):
        return self.lights.count(light)
