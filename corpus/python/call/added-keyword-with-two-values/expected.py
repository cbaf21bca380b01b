feed = Feed(
    url,
<<<<<<< ours
    timeout=5,
=======
    timeout=9,
>>>>>>> theirs
    retries=2,
)
feed.start()
