fn model(port: &Port) -> Model {
<<<<<<< ours
    at_datum(read(5).next())
=======
    at_datum(read(6) + 1)
>>>>>>> theirs
}
