fn tides(db: &Db, port: &str) -> Rows {
    db.query(r#"
        select time, height
        from tides
        where port = ?
        order by time
    "#, port)
}
