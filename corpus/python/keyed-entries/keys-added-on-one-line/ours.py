HEADERS = {"agent": "tideboard", "lang": "en"}
