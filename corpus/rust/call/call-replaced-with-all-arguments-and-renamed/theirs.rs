fn model(port: &Port) -> Model {
    with_datum(read(6) + 1)
}
