fn store(tide: &Tide) -> Result<()> {
    use std::io::Read;
    use tide::Write;

    let path = tide.path();
    write(path, tide)
}
