impl Quay {
    fn post(&self, report: &Report) {
        if self.on_air() {
            let text = report.text();
            self.radio.send(&text);
        }
        self.log.note("posted");
    }
}
