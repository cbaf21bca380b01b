rows = (
    db.table("tides")
    .where(port=code)
    .order_by("time")
    .all()
)
