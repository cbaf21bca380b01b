def post(report):
    text = report.as_text()
    send(text, timeout=5)
