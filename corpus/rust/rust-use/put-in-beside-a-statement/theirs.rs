fn store(tide: &Tide) -> Result<()> {
    use std::io::Read;
    trace(tide);

    let path = tide.path();
    write(path, tide)
}
