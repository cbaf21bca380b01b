def post(report):
    text = report.as_text()
    send(text, timeout=9, urgent=True)
