pub fn f(a: bool, b: bool) {
<<<<<<< ours
    if !a {
=======
    if a {
        p();
        r();
    } else {
>>>>>>> theirs
        q();
    } else {
        p();
    }
}
pub fn p() {}
pub fn q() {}
pub fn r() {}
pub fn s() {}
pub fn t() {}
pub fn u() {}
pub fn v() {}
