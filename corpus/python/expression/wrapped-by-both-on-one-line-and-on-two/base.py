def load(path):
    level = read(path)
    spring = read_spring(path)
    return level, spring
