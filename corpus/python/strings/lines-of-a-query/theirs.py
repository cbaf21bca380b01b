def tides(self, code):
    self.cursor.execute("""
        select time, height
        from tides
        where port = ?
        order by time desc
    """, (code,))
    return cursor.fetchall()
