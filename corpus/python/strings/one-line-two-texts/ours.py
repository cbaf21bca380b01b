def usage():
    print("usage: tideboard [--day DAY] PORT", file=sys.stderr)
