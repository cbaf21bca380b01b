def settings():
    return {
        "name": "tideboard",
<<<<<<< ours
        "timeout": 30,
=======
        "timeout": 60,
>>>>>>> theirs
        "host": "localhost",
        "port": 8001,
        "unit": "ft",
        "zone": "UTC",
        "debug": False,
    }
