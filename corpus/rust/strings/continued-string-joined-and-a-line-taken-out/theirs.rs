fn check(report: &Report) {
    assert_eq!(report.text(), "reading north-quay\nreading south-lock\nreading west-mole\n");
}
