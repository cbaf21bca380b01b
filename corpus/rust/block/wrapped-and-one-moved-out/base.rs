fn a() {
    open_gate(harbour);
    measure_level(harbour);
    publish_forecast(harbour);
    close_gate(harbour);
}
