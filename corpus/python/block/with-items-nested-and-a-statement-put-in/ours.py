def measure(port, level):
    with held('lamp'):
        with held('tide'):
            span = port + level

            if level <= 19:
                reach = level % 4
                note('gauge', reach)
    note(port)
