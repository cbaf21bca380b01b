fn a() {
    let x = read(port)?;
}
