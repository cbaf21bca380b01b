def convert(height, unit="m", digits=3):
    return round(height * FACTORS[unit], digits)
