fn a() {
    open_gate();
    publish_forecast(harbour);
    measure_level(harbour);
    close_gate();
}
