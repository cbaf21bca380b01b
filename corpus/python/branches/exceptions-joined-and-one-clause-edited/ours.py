def run(station):
    try:
        read(station)
    except (ValueError, KeyError):
        note("bad")
        skip(station)
    finally:
        close(station)
