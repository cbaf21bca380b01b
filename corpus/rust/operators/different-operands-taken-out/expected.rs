fn is_open(port: &Port) -> bool {
<<<<<<< ours
    port.has_gauge() && port.is_lit()
=======
    port.has_gauge() && port.is_dredged()
>>>>>>> theirs
}
