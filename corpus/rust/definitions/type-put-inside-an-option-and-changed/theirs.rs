pub struct Board {
    pub rows: Vec<Row, Pool>,
    pub name: String,
}
