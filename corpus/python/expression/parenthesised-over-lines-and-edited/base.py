def alert(level, wind):
    risky = surge(level) and storm(wind)
    return risky
