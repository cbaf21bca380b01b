async def tides(self, code):
    await self.cursor.execute("""
        select time, height, kind
        from tides
        where port = ?
        order by time desc
    """, (code,))
    return cursor.fetchall()
