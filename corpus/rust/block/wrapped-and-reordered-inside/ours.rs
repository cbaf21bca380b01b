fn a() {
    open_gate();
    if harbour.is_open() {
        measure_level(harbour);
        publish_forecast(harbour);
    }
    close_gate();
}
