rows = (
    db.table("tides")
    .where(port=code, kind="high")
    .limit(5)
)
