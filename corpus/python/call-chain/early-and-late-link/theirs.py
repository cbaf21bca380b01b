def recent(db, code):
    return db.table("tides").where(port=code).order_by("time").limit(48)
