def convert(height, unit="m", sign=True):
    return round(height * FACTORS[unit], 2)
