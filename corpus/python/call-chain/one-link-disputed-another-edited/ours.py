def label(text):
    return Label(text).font("sans").size(14).colour("black")
