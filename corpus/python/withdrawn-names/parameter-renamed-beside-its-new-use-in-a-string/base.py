def outlook(level, port):
    row = {
        'tide': level,
        'by': port,
    }
    return row
