def settings():
    return {
        "name": "tideboard",
        "host": "localhost",
        **extra(),
        "unit": "m",
        "zone": "UTC",
        "timeout": 30,
        "debug": False,
    }
