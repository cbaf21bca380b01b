HEADERS = {"agent": "tideboard", "lang": "en", "unit": "m"}
