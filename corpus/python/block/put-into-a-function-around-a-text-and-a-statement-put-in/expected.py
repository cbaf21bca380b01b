def measure(level, port):
    def inner():
        note('crane', port)
        note("text", """
        High water
        and low water.
    """)
        note("level", level)
        return level + 6
    return inner()
