tides = load(path=path, unit='m')
