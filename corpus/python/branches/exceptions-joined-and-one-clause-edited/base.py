def run(station):
    try:
        read(station)
    except ValueError:
        note("bad")
        skip(station)
    except KeyError:
        note("bad")
        skip(station)
    finally:
        close(station)
