fn a() {
    read(port).filter(ok).map(round).collect()
}
