async def tides(client, port):
    rows = await client.tides(port, days=7)
    return rows
