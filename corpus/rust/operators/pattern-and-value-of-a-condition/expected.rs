fn a() {
<<<<<<< ours
    if let Ok(x) = read() {
=======
    if let Some(x) = fetch() {
>>>>>>> theirs
        show(x);
    }
}
