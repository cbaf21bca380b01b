fn main() {
    // This is what the harbour asked for.
<<<<<<< ours
    println!("Level: {level:#?} metres");
=======
>>>>>>> theirs
}
