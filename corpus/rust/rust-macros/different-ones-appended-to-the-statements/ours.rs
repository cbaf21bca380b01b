fn publish(port: &Port) {
    info!("publishing {}", port.name);
    send!(port, port.levels());
}
