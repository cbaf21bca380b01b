chart = {
    'scale': 0,
    'grid': 10,
}
