def announce(report, watchers):
    text = report.as_text()
    send(text, urgent=report.surge)
