TEXT = """Forecast the tide.

    Returns a table.
    """
