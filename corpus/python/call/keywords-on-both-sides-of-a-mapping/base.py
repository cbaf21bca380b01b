def connect(base_url, options):
    client = Client(base_url, **options)
    client.ping()
    return client
