QUERY = """select level
    from readings
      where port = 'husum'
      and year = 2026
    order by level
"""
