def settings(env):
    found = {}
    for key in env:
        if key in KNOWN:
            found[key] = station(env[key])
        else:
            found[key] = None
    return found
