fn model(port: &Port) -> Model {
<<<<<<< ours
    Ok(with_datum(port.datum(), read(5)))
=======
    with_datum(read(6))
>>>>>>> theirs
}
