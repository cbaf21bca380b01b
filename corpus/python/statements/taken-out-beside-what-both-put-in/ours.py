def poll(args):
    env = {}
    return output(args)
