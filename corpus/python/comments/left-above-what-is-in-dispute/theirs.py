def refresh(station):
    # Levels of the page.
    store(converted(levels))
    return levels
