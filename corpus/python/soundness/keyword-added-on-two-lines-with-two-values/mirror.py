feed = Feed(
    url,
<<<<<<< ours
    timeout=9,
=======
    timeout=5,
>>>>>>> theirs
    unit="m",
    port=code,
    retries=2,
)
