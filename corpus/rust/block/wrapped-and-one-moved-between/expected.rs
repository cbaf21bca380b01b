fn a() {
<<<<<<< ours
    open_gate(harbour);
    if harbour.is_open() {
        measure_level(harbour);
        publish_forecast(harbour);
    }
=======
    measure_level(harbour);
    open_gate(harbour);
    publish_forecast(harbour);
>>>>>>> theirs
    close_gate(harbour);
}
