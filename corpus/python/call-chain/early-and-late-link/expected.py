def recent(db, code):
    return db.table("observations").where(port=code).order_by("time").limit(48)
