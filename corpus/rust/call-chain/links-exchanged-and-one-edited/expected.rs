fn a() {
<<<<<<< ours
    read(port).map(round).filter(ok).collect()
=======
    read(port).filter(ok).map(floor).collect()
>>>>>>> theirs
}
