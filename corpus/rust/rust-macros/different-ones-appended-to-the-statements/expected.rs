fn publish(port: &Port) {
    info!("publishing {}", port.name);
<<<<<<< ours
    send!(port, port.levels());
=======
    draw!(port.chart());
>>>>>>> theirs
}
