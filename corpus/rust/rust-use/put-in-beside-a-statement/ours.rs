fn store(tide: &Tide) -> Result<()> {
    use std::io::Read;
    use std::io::Write;

    let path = tide.path();
    path.write(tide)
}
