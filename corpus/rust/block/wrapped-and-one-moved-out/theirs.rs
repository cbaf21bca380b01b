fn a() {
    open_gate(harbour);
    measure_level(harbour);
    close_gate(harbour);
    publish_forecast(harbour);
}
