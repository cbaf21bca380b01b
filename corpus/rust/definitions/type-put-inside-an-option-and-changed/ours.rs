pub struct Board {
    pub rows: Option<Vec<Row<Tide>>>,
    pub name: String,
}
