struct Level(u8, Unit);
