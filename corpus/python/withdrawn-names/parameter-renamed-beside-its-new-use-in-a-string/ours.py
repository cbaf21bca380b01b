def outlook(metres, port):
    row = {
        'tide': metres,
        'by': port,
    }
    return row
