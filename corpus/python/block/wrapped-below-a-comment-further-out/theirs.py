def settings(env):
    found = {}
    for key in env:
       # found[key] = harbour(env[key])
        found[key] = station(env[key])
    return found
