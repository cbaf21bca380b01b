fn model(port: &Port) -> Result<Model, Error> {
    Ok(with_datum(port.datum(), read(5)))
}
