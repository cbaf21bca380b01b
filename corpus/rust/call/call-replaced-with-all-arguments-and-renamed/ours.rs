fn model(port: &Port) -> Model {
    at_datum(read(5).next())
}
