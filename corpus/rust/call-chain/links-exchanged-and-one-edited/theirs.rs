fn a() {
    read(port).filter(ok).map(floor).collect()
}
