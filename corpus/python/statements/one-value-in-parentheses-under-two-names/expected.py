class Tide(Flag):
    LOW = (1 << 0)
    HIGH = (1 << 1)
<<<<<<< ours
    EBB = (1 << 2)
=======
    FLOOD = (1 << 2)
>>>>>>> theirs
