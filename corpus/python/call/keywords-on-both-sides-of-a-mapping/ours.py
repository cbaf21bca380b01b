def connect(base_url, options):
    client = Client(base_url, retries=3, **options)
    client.ping()
    return client
