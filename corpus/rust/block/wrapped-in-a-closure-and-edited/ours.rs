impl Quay {
    fn post(&self, report: &Report) {
        self.with_lock(|| {
            let text = report.text();
            self.radio.send(&text);
        });
        self.log.note("posted");
    }
}
