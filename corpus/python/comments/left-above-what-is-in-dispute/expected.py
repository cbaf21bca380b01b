def refresh(station):
    # Levels of the page.
<<<<<<< ours
    store_now(levels or last)
=======
    store(converted(levels))
>>>>>>> theirs
    return levels
