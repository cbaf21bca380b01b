fn main() {
    // This is what the harbour asked for.
    // Mind the unit.
    println!("Level: {level:#?}", unit);
}
