#[derive(Debug, Clone)]
#[belongs_to(Quay)]
pub struct Gauge {
    id: i32,
}
