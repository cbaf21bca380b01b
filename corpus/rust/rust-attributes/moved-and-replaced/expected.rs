#[derive(Debug, Clone)]
<<<<<<< ours
#[belongs_to(Quay)]
=======
#[table(belongs_to(Quay))]
>>>>>>> theirs
pub struct Gauge {
    id: i32,
}
