fn model(port: &Port) -> Result<Model, Error> {
    Ok(with_datum(read(5)))
}
