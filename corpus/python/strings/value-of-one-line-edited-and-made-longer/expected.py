<<<<<<< ours
TEXT = """Forecast the tide.

    Returns a table.
    """
=======
TEXT = """Forecast the tide at a station."""
>>>>>>> theirs
