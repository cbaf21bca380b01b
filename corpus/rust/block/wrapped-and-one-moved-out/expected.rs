fn a() {
    open_gate(harbour);
<<<<<<< ours
    if harbour.is_open() {
        measure_level(harbour);
        publish_forecast(harbour);
    }
=======
    measure_level(harbour);
>>>>>>> theirs
    close_gate(harbour);
    publish_forecast(harbour);
}
