struct Level(u16, Unit);
