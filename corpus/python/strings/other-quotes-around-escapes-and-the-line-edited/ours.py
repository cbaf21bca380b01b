def show(level):
    print("low\t" + level + "\n")
    print("the \"low\" of the day", level)
    return level.replace("\\", "/")
