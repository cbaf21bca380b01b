TEXT = """Forecast the tide."""
