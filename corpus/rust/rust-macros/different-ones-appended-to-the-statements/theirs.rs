fn publish(port: &Port) {
    info!("publishing {}", port.name);
    draw!(port.chart());
}
