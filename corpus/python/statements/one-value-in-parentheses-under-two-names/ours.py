class Tide(Flag):
    LOW = (1 << 0)
    HIGH = (1 << 1)
    EBB = (1 << 2)
