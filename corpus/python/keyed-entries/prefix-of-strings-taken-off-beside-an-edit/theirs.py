TITLES = {
    u"west": u"West quay",
    u"east": u"East pier",
    u"north": u"North mole",
}
