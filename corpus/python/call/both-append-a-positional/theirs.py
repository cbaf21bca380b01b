def crest(first, second):
    height = max(first, second, surge())
    return round(height, 1)
