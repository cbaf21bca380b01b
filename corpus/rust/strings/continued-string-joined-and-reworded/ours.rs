fn check(report: &Report) {
    assert_eq!(report.text(),
        "reading north-quay\n\
         reading west-mole\n",
    );
}
