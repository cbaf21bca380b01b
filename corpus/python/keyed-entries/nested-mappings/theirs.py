config = {"feed": {"url": URL, "retries": 4}, "board": {"theme": "night"}}
