def tides(client, port):
    rows = client.tides(port)
    return rows
