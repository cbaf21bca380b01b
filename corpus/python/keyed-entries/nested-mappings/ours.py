config = {"feed": {"url": URL, "retries": 2, "timeout": 5}, "board": {"theme": "day"}}
