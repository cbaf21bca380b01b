fn is_open(port: &Port) -> bool {
    port.has_gauge() && port.is_lit()
}
