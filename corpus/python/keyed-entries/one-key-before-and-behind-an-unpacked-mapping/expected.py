def settings():
    return {
        "name": "tideboard",
<<<<<<< ours
        "timeout": 30,
        "host": "localhost",
        **extra(),
        "unit": "m",
        "zone": "UTC",
=======
        "host": "localhost",
        **extra(),
        "unit": "m",
        "zone": "UTC",
        "timeout": 30,
>>>>>>> theirs
        "debug": False,
    }
