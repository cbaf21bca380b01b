PATTERN = "tide"
HELP = r"""Names end with a tab.
Give a station.
"""
