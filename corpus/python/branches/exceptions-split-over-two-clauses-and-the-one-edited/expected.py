def run(station):
    try:
        read(station)
<<<<<<< ours
    except ValueError:
        note("bad")
        skip(station)
        rest(station)
    except KeyError:
        note("bad")
=======
    except (ValueError, KeyError):
        note("worse")
>>>>>>> theirs
        skip(station)
        rest(station)
    finally:
        close(station)
