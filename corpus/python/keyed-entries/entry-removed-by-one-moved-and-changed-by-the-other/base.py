chart = {
    'unit': 2,
    'scale': 0,
    'grid': 2,
}
