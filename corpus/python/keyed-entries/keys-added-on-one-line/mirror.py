HEADERS = {"agent": "tideboard", "unit": "m", "lang": "en"}
