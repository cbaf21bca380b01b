fn a() {
    let x = read(port, 3).unwrap();
}
