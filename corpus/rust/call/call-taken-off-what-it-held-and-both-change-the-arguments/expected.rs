fn model(port: &Port) -> Model {
    with_datum(port.datum(), read(6))
}
