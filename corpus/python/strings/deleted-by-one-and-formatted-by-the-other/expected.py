def low(day):
    return "low"
