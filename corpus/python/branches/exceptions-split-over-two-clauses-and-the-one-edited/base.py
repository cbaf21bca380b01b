def run(station):
    try:
        read(station)
    except (ValueError, KeyError):
        note("bad")
        skip(station)
        rest(station)
    finally:
        close(station)
