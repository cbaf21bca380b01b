def run(station):
    try:
        read(station)
    except ValueError:
        note("bad")
        skip(station)
        rest(station)
    except KeyError:
        note("bad")
        skip(station)
        rest(station)
    finally:
        close(station)
