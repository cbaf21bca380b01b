def table(rows):
    quay_levels = tides.Table("quay", rows,
                              tides.Column("station", key=True),
                              tides.Column("quay_level"),
                              )
    return quay_levels
