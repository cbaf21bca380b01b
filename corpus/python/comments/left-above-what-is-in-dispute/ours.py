def refresh(station):
    # Levels of the page.
    levels = parse(
        page)
    store_now(levels or last)
    return levels
