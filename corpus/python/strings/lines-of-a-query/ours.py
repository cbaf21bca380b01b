async def tides(cursor, code):
    await cursor.execute("""
        select time, height, kind
        from tides
        where port = ?
        order by time
    """, (code,))
    return cursor.fetchall()
