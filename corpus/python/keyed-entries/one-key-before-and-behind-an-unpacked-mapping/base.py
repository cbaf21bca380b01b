def settings():
    return {
        "name": "tideboard",
        "host": "localhost",
        **extra(),
        "unit": "m",
        "zone": "UTC",
        "debug": False,
    }
