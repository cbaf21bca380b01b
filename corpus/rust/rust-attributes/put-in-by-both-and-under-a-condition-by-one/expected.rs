fn high() {}

<<<<<<< ours
=======
#[cfg(test)]
>>>>>>> theirs
fn lamp() -> u8 {
    1
}

fn low() {}
