TITLES = [
    u"west",
    u"east",
    u"north",
]
