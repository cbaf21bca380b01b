fn a() {
    read(port).map(round).filter(ok).collect()
}
