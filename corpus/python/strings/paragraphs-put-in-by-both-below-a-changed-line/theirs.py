def draw(station, unit):
    """Draw the tides.

    unit : str
        The unit of all heights.

    datum : str
        The level that heights are told from.

    pages : int
        How many pages are drawn.

    Returns
    -------
    pages
    """
    return station.pages
