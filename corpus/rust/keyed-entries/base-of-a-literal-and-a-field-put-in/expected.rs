#[derive(Default)]
pub struct C {
    pub a: u32,
    pub b: u32,
    pub c: u32,
}
pub fn f() -> C {
    C {
        a: 1,
<<<<<<< ours
        b: 2,
        c: 3,
=======
        ..C::default()
>>>>>>> theirs
    }
}
