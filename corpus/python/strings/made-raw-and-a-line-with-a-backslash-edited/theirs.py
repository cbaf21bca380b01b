PATTERN = "tide"
HELP = """Names end with a \t.
Give a station.
"""
