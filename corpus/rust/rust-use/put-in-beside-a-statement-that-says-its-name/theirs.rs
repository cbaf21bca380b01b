fn store(tide: &Tide) -> Result<()> {
    use std::io::Read;
    let sink = Write::new();

    let path = tide.path();
    write(path, tide)
}
