struct Level(pub u16, Unit);
