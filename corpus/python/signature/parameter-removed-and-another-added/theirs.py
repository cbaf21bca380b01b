def convert(height, unit="m", digits=2, sign=True):
    return round(height * FACTORS[unit], digits)
