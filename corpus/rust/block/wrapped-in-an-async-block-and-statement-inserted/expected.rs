impl Quay {
    fn post(&self, report: &Report) {
        spawn(async move {
            let text = report.text();
            let text = text.to_uppercase();
            self.radio.send(&text);
        });
        self.log.note("posted");
    }
}
