fn a() -> Chart {
    Chart::builder()
        .title("Tides of the harbour")
        .width(640)
        .height(300)
        .build()
}
