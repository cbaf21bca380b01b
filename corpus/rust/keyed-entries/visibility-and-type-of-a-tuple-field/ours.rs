struct Level(pub u8, Unit);
