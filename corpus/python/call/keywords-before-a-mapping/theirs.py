def connect(base_url, options):
    client = Client(base_url, cache=True, **options)
    client.ping()
    return client
