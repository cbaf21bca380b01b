def connect(base_url, options):
    client = Client(base_url, cache=True, retries=3, **options)
    client.ping()
    return client
