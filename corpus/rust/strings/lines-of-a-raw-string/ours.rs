fn tides(&self, port: &str) -> Rows {
    self.db.query(r#"
        select time, height, kind
        from tides
        where port = ?
        order by time
    "#, port)
}
