def connect(base_url, options):
    client = Client(base_url, retries=3, cache=True, **options)
    client.ping()
    return client
