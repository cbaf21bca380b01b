def load(path):
    level = checked(
            read(path, 3))
    spring = checked(
            read_spring(path, 3))
    return level, spring
