fn a() {
    open_gate();
    measure_level(harbour);
    publish_forecast(harbour);
    close_gate();
}
