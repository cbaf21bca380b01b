class Board:
    def dim(self, light):
<<<<<<< ours
        if not light or light not in self.lamps:
=======
        if not lamp or lamp not in self.lights:
>>>>>>> theirs
            return None
        self.lights.remove(light)
        for light in self.lights:
            light.dim()
        return light

    def count(self, light):
        return self.lights.count(light)
