fn a() -> Chart {
    Chart::builder()
        .title("Tides")
        .width(640)
        .build()
}
