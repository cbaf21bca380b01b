def settings(env):
    found = {}
    for key in env:
        found[key] = station(env[key])
    return found
