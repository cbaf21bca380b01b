async def tides(client, port):
    rows = await client.tides(port)
    return rows
