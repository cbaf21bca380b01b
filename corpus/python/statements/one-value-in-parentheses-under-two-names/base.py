class Tide(Flag):
    LOW = (1 << 0)
    HIGH = (1 << 1)
