def label(text):
    return Label(text).font("sans").size(12).colour("navy")
