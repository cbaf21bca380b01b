def usage():
    print("usage: tideboard PORT...", file=sys.stderr, flush=True)
