fn a() -> Chart {
    Chart::builder()
        .title("Tides of the harbour")
        .width(400)
        .height(300)
        .build()
}
