def run(station):
    try:
        read(station)
    except (ValueError, KeyError):
        note("worse")
        skip(station)
        rest(station)
    finally:
        close(station)
