fn a() -> Chart {
    Chart::builder()
        .title("Tides")
        .width(400)
        .build()
}
