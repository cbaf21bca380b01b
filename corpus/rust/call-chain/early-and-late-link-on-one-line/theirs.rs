fn recent(db: &Db, port: &str) -> Rows {
    let rows = db.table("tides").filter(port).order_by("time").limit(48);
    rows.all()
}
