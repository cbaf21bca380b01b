def measure(span):
    row = {
        'tide': span,
        'by': 1,
    }
    note(row)
