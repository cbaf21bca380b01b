fn main() {
    // This is what the harbour asked for.
    let level = Gauge::read(&port)
        .map_err(|err| err.exit())
        .unwrap();
    println!("Level: {level:#?}");
}
