settings! {
    datum: Datum, Datum::Chart, "Reference level";
    offline: bool, false,
        "Serve only what is cached";
<<<<<<< ours
    verbose: bool, true, "Print every reading";
=======
    verbose: bool, false, "Print every reading";
>>>>>>> theirs
}
