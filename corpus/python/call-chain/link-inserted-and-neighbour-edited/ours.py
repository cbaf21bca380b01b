rows = (
    db.table("tides")
    .where(port=code)
    .distinct()
    .order_by("time")
    .all()
)
