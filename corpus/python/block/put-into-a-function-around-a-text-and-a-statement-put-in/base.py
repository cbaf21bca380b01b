def measure(level, port):
    note('crane', port)
    note("text", """
        High water
        and low water.
    """)
    return level + 6
