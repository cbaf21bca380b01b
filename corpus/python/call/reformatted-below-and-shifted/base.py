def table(rows):
    harbour_levels = tides.Table("harbour", rows,
                                 tides.Column("station", key=True),
                                 tides.Column("harbour_level"),
                                 )
    return harbour_levels
