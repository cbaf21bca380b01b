def load(path):
    level = checked(read(path))
    spring = checked(read_spring(path))
    return level, spring
