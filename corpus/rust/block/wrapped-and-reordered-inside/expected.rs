fn a() {
    open_gate();
    if harbour.is_open() {
        publish_forecast(harbour);
        measure_level(harbour);
    }
    close_gate();
}
