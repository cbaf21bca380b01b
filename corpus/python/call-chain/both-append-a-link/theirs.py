rows = (
    db.table("tides")
    .where(port=code)
    .offset(2)
)
