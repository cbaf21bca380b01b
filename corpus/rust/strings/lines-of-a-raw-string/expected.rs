fn tides(&self, port: &str) -> Vec<Row> {
    self.db.query_all(r#"
        select time, height, kind
        from tides
        where port = ?
        order by time desc
    "#, port)
}
