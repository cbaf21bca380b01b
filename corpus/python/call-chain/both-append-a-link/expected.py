rows = (
    db.table("tides")
    .where(port=code, kind="high")
<<<<<<< ours
    .limit(5)
=======
    .offset(2)
>>>>>>> theirs
)
