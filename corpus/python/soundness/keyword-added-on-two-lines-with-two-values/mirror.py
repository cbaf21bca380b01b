feed = Feed(
    url,
    unit="m",
    port=code,
    retries=2,
<<<<<<< ours
    timeout=9,
=======
    timeout=5,
>>>>>>> theirs
)
