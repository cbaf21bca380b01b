def is_high(level, storm):
    alarm = (level > limit(storm))
    return alarm or storm
