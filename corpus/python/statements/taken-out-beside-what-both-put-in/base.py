def poll(args):
    env = {}
    return run(args, env=env)
