QUERY = """select level
    from readings
      where port = 'kiel'
      and year = 2026
    order by level
"""
