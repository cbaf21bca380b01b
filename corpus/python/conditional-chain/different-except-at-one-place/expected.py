def poll(feed):
    try:
        return feed.read(limit=9)
<<<<<<< ours
    except TimeoutError:
        return None
=======
    except OSError:
        feed.reset()
>>>>>>> theirs
    finally:
        feed.close()
