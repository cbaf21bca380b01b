fn store(tide: &Tide) -> Result<()> {
    use std::io::Read;

    let path = tide.path();
    write(path, tide)
}
