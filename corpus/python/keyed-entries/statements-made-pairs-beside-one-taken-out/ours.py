def measure(span):
    row = {
        'tide': span,
        'unit': 'm',
        'by': 1,
    }
    note(row)
