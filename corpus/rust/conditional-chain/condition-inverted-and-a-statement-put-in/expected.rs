pub fn f(a: bool, b: bool) {
    if !a {
        q();
    } else {
        p();
        r();
    }
}
pub fn p() {}
pub fn q() {}
pub fn r() {}
pub fn s() {}
pub fn t() {}
pub fn u() {}
pub fn v() {}
