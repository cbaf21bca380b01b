def refresh(station):
    # Levels of the page.
    levels = parse(
        page)
    store(levels)
    return levels
