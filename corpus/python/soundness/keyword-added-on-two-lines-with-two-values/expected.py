feed = Feed(
    url,
<<<<<<< ours
    timeout=5,
=======
    timeout=9,
>>>>>>> theirs
    unit="m",
    port=code,
    retries=2,
)
