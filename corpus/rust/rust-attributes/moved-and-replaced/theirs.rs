#[derive(Debug, Clone)]
#[table(belongs_to(Quay))]
pub struct Gauge {
    id: i32,
}
