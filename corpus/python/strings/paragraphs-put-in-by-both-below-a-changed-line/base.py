def draw(station, unit):
    """Draw the tides.

    unit : str
        In which heights are told.

    Returns
    -------
    a page
    """
    return station
