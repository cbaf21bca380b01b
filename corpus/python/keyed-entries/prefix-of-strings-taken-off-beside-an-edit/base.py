TITLES = {
    u"west": u"West quay",
    u"east": u"East quay",
}
