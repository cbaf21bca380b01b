fn publish(port: &Port) {
    info!("publishing {}", port.name);
}
