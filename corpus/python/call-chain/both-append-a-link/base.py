rows = (
    db.table("tides")
    .where(port=code)
)
