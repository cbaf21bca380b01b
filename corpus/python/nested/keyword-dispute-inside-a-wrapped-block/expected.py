def post(report):
    text = report.as_text()
    try:
<<<<<<< ours
        send(text, timeout=3, urgent=True)
=======
        send(text, timeout=9, urgent=True)
>>>>>>> theirs
    except FeedError:
        log.error("not sent")
