def draw(station, unit):
    """Draw the tides.

    unit : str
        In which heights are told.

    datum : str
        The level that heights are told from.

    pages : int
        How many pages are drawn.

    Returns
    -------
    a page
    """
    return station.page
