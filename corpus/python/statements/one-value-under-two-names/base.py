class Status(IntEnum):
    OK = 0
    STALE = 1
