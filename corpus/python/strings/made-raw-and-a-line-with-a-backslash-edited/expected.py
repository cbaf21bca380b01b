PATTERN = "tide"
<<<<<<< ours
HELP = r"""Names end with a tab.
=======
HELP = """Names end with a \t.
>>>>>>> theirs
Give a station.
"""
