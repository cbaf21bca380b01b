def convert(height, unit="m", digits=2):
    return round(height * FACTORS[unit], digits)
