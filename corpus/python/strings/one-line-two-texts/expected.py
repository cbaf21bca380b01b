def usage():
<<<<<<< ours
    print("usage: tideboard [--day DAY] PORT", file=sys.stderr, flush=True)
=======
    print("usage: tideboard PORT...", file=sys.stderr, flush=True)
>>>>>>> theirs
