def post(report):
    text = report.as_text()
    try:
        send(text, timeout=3)
    except FeedError:
        log.error("not sent")
