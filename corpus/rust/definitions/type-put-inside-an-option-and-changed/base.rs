pub struct Board {
    pub rows: Vec<Row>,
    pub name: String,
}
