mod chart {
    pub fn bar(height: f64) -> String {
        "#".repeat(height as usize)
    }

    pub fn label(height: f64) -> String {
        format!("{height} m")
    }
}

mod text {
    pub fn title(port: &str) -> String {
        port.to_uppercase()
    }
}
