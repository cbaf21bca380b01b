fn high() {}

<<<<<<< ours
#[inline]
=======
#[cfg(test)]
>>>>>>> theirs
fn lamp() -> u8 {
    1
}

fn low() {}
