def crest(first, second):
    height = max(first, second)
    return round(height, 1)
