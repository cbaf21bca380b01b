def tides(client, port):
    rows = client.tides(port, days=7)
    return rows
