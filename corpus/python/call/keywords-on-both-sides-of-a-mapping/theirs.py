def connect(base_url, options):
    client = Client(base_url, **options, cache=True)
    client.ping()
    return client
