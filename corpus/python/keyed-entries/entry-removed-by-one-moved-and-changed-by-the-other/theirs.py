chart = {
    'scale': 0,
    'unit': 1,
    'grid': 2,
}
