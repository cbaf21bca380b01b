HEADERS = {"agent": "tideboard", "unit": "m"}
