def settings():
    return {
        "name": "tideboard",
        "timeout": 30,
        "host": "localhost",
        **extra(),
        "unit": "m",
        "zone": "UTC",
        "debug": False,
    }
