settings! {
    datum: Datum, Datum::Chart, "Reference level";
    verbose: bool, false, "Print every reading";
}
