class Status(IntEnum):
    OK = 0
    STALE = 1
<<<<<<< ours
    OFFLINE = 2
=======
    FROZEN = 2
>>>>>>> theirs
