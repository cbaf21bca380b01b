mod chart {
    pub fn bar(height: f64) -> String {
        "#".repeat(height as usize)
    }
}

mod text {
    pub fn title(port: &str) -> String {
        port.to_uppercase()
    }

    pub fn label(height: f64) -> String {
        format!("{height:.1} m")
    }
}
