def measure(span):
    row = {
        'tide': span,
<<<<<<< ours
        'unit': 'm',
=======
>>>>>>> theirs
        'by': 1,
    }
    note(row)
