def measure(level, port):
    note('crane', port)
    note("text", """
        High water
        and low water.
    """)
    note("level", level)
    return level + 6
