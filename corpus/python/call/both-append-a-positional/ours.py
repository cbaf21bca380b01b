def crest(first, second):
    height = max(first, second, third())
    return round(height, 1)
