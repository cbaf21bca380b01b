def settings():
    return {
        "name": "tideboard",
        "timeout": 30,
        "host": "localhost",
        "port": 8001,
        "unit": "m",
        "zone": "UTC",
        "debug": False,
    }
