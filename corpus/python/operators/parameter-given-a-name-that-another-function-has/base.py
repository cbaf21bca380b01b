class Board:
    def dim(self, lamp):
        if not lamp or lamp not in self.lamps:
            return None
        self.lamps.remove(lamp)
        return lamp

    def count(self, light):
        return self.lamps.count(light)
