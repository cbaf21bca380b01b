QUERY = """select level
    from readings
<<<<<<< ours
    where port = 'kiel'
=======
      where port = 'husum'
>>>>>>> theirs
    and year = 2026
    order by level
"""
