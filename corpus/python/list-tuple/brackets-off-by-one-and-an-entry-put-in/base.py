def low(queue):
    (level, quay, start) = queue.pop()
    return (level, quay)
