def convert(height, unit="m"):
    return round(height * FACTORS[unit], 2)
