def outlook(metres, port):
    row = {
        'tide': metres,
<<<<<<< ours
=======
        'text': f'{level} m at {port}',
>>>>>>> theirs
        'by': port,
    }
    return row
