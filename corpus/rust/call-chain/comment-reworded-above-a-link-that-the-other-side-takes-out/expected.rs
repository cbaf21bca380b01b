fn levels(port: &Port) -> Vec<Level> {
    port.readings()
        .filter(|reading| reading.is_valid())
<<<<<<< ours
        // The gauge counts in fathoms.
        .map(|reading| reading.in_metres())
=======
>>>>>>> theirs
        .collect()
}
