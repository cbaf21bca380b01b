def label(text):
<<<<<<< ours
    return Label(text).font("sans").size(14).colour("black")
=======
    return Label(text).font("sans").size(16).colour("black")
>>>>>>> theirs
