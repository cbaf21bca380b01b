settings! {
    datum: Datum, Datum::Chart, "Reference level";
    offline: bool, false,
        "Serve only what is cached";
    verbose: bool, true, "Print every reading";
}
