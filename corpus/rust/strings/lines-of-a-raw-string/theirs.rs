fn tides(db: &Db, port: &str) -> Vec<Row> {
    db.query_all(r#"
        select time, height
        from tides
        where port = ?
        order by time desc
    "#, port)
}
