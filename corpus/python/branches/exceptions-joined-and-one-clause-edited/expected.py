def run(station):
    try:
        read(station)
<<<<<<< ours
    except (ValueError, KeyError):
=======
    except ValueError:
        note("worse")
        skip(station)
    except KeyError:
>>>>>>> theirs
        note("bad")
        skip(station)
    finally:
        close(station)
