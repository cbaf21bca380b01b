config = {"feed": {"url": URL, "retries": 2}, "board": {"theme": "day"}}
