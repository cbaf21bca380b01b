def alert(level, wind):
    risky = (
        surge(level)
        and storm(wind, gusts=True)
    )
    return risky
