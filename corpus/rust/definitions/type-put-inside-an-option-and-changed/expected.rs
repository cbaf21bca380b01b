pub struct Board {
    pub rows: Option<Vec<Row<Tide>, Pool>>,
    pub name: String,
}
