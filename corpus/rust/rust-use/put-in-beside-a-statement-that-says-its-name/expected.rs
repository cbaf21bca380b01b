fn store(tide: &Tide) -> Result<()> {
    use std::io::Read;
<<<<<<< ours
    use tide::Write;
=======
    let sink = Write::new();
>>>>>>> theirs

    let path = tide.path();
    write(path, tide)
}
