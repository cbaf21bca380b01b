fn store(tide: &Tide) -> Result<()> {
    use std::io::Read;
    use std::io::Write;
    trace(tide);

    let path = tide.path();
    path.write(tide)
}
