def tides(cursor, code):
    cursor.execute("""
        select time, height
        from tides
        where port = ?
        order by time
    """, (code,))
    return cursor.fetchall()
