fn model(port: &Port) -> Model {
    with_datum(read(5) + 1)
}
