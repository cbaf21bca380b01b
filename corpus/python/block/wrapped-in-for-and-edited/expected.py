def announce(report, watchers):
    text = report.as_text()
    for address in watchers:
        send(text, urgent=report.surge)
