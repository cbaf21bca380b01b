TITLES = [
    u"west",
    u"east pier",
    u"north",
]
