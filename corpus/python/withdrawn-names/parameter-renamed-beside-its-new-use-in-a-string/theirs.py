def outlook(level, port):
    row = {
        'tide': level,
        'text': f'{level} m at {port}',
        'by': port,
    }
    return row
