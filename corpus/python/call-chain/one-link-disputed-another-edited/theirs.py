def label(text):
    return Label(text).font("sans").size(16).colour("navy")
