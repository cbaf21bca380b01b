impl Quay {
    fn post(&self, report: &Report) {
        let text = report.text();
        let text = text.to_uppercase();
        self.radio.send(&text);
        self.log.note("posted");
    }
}
