PATTERN = "tide"
HELP = """Names end with a tab.
Give a station.
"""
