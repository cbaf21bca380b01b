def table(rows):
    quay_levels = stored.Table(
        "quay", rows,
        tides.Column("station", key=True),
        tides.Column("quay_level"),
    )
    return quay_levels
