def poll(args):
    return output(args)
