impl Quay {
    fn post(&self, report: &Report) {
        let text = report.text();
        self.radio.send(&text);
        self.log.note("posted");
    }
}
