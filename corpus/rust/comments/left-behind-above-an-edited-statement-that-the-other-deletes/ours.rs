fn main() {
    // This is what the harbour asked for.
    println!("Level: {level:#?} metres");
}
