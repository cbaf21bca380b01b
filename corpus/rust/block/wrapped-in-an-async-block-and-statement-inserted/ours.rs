impl Quay {
    fn post(&self, report: &Report) {
        spawn(async move {
            let text = report.text();
            self.radio.send(&text);
        });
        self.log.note("posted");
    }
}
