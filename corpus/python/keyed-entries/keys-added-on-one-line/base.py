HEADERS = {"agent": "tideboard"}
