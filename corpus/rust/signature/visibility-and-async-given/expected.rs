impl Board {
    pub async fn refresh(&mut self, level: f64) {
        self.level = read(level).await;
    }
}
