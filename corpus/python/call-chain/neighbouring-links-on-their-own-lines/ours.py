rows = (
    db.table("tides")
    .where(port=code, valid=True)
    .order_by("time")
    .all()
)
