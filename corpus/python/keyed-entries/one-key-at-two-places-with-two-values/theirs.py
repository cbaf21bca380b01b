def settings():
    return {
        "name": "tideboard",
        "host": "localhost",
        "port": 8000,
        "unit": "ft",
        "zone": "UTC",
        "timeout": 60,
        "debug": False,
    }
