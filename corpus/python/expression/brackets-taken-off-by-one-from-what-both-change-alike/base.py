def is_high(level, storm):
    alarm = (level > 5)
    return alarm or storm
