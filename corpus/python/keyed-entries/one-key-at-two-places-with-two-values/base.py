def settings():
    return {
        "name": "tideboard",
        "host": "localhost",
        "port": 8000,
        "unit": "m",
        "zone": "UTC",
        "debug": False,
    }
