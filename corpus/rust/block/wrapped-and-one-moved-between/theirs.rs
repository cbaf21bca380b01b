fn a() {
    measure_level(harbour);
    open_gate(harbour);
    publish_forecast(harbour);
    close_gate(harbour);
}
