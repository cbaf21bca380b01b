impl Quay {
    fn post(&self, report: &Report) {
        let text = report.text().trim().to_owned();
        self.radio.send(&text);
        self.log.note("posted");
    }
}
