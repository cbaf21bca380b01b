config = {"feed": {"url": URL, "retries": 4, "timeout": 5}, "board": {"theme": "night"}}
