TEXT = """Forecast the tide at a station."""
