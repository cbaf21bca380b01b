#[belongs_to(Quay)]
#[derive(Debug, Clone)]
pub struct Gauge {
    id: i32,
}
