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
<<<<<<< ours
    return station.page
=======
    return station.pages
>>>>>>> theirs
