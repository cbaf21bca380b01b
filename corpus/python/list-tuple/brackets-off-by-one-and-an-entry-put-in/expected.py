def low(queue):
    level, quay, unit, start = queue.pop()
    return level, quay, unit
