fn check(report: &Report) {
<<<<<<< ours
    assert_eq!(report.text(), "reading north-quay\n\
         reading west-mole\n");
=======
    assert_eq!(report.text(), "reading north-quay\nreading south-lock\nreading east-mole\n");
>>>>>>> theirs
}
